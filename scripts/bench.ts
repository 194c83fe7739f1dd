import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import process from 'node:process'
import { drawCorpus } from './bench/corpus.ts'
import { CORPUS, type Part, prepareGround } from './bench/ground.ts'
import { benchPage } from './bench/page.ts'
import { cold } from './bench/parts/cold.ts'
import { duplicates } from './bench/parts/duplicates.ts'
import { files } from './bench/parts/files.ts'
import { known } from './bench/parts/known.ts'
import { memory } from './bench/parts/memory.ts'
import { preparing } from './bench/parts/preparing.ts'
import { start } from './bench/parts/start.ts'

/*
 * Speed and memory as ratios that are measured side by side in one run:
 * npm run bench -- [--parts cold,memory] [--most 5000] [--rounds 5] [--anew] [--write]
 * Drawing the corpus takes minutes, once; --write puts the tables of all parts into docs/benchmark.md.
 */
const PARTS: Readonly<Record<string, Part>> = { cold, files, memory, known, duplicates, preparing, start }

const option = (name: string, fallback: string): string => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? fallback : (process.argv[at + 1] ?? fallback)
}
const DRAWN = 200
const say = (text: string) => process.stderr.write(`${text}\n`)
const chosen = option('parts', Object.keys(PARTS).join(',')).split(',')
const unknown = chosen.filter((name) => !Object.hasOwn(PARTS, name))
if (unknown.length > 0)
  throw new Error(`There is no part ${unknown.join(', ')}; there are ${Object.keys(PARTS).join(', ')}.`)
const isWritten = process.argv.includes('--write')
if (isWritten && chosen.length < Object.keys(PARTS).length)
  throw new Error('docs/benchmark.md holds all parts: leave out --parts or --write.')

await drawCorpus(CORPUS, DRAWN, (index) => say(`Drawing portrait ${index + 1} of ${DRAWN}`))
const ground = await prepareGround({
  drawn: DRAWN,
  most: Number(option('most', '5000')),
  rounds: Number(option('rounds', '5')),
  anew: process.argv.includes('--anew'),
  say,
})
const sections: string[] = []
for (const name of chosen) {
  const began = performance.now()
  say(`Part ${name}`)
  const section = await (PARTS[name] as Part)(ground)
  say(`${section}\nPart ${name} took ${((performance.now() - began) / 1000).toFixed(0)} s.\n`)
  sections.push(section)
}
const page = benchPage(sections, DRAWN)
process.stdout.write(page)
if (isWritten) await writeFile(join('docs', 'benchmark.md'), page)
