import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import type { Report } from '../src/judge/report.ts'
import { LIMITS } from '../src/measure/file/read-file.ts'
import { DECODABLE, type Decodable } from '../src/measure/schema/formats.ts'
import { drawOriginals } from '../tests/long/fuzz/originals.ts'
import { fullSpec } from './bench/spec.ts'
import { timed } from './bench/timed.ts'
import { writeDelivery } from './hostile/delivery.ts'
import { heavyPictures } from './hostile/heavy.ts'
import type { Cost } from './hostile/measure-each.ts'
import { hostilePage, type Row } from './hostile/page.ts'

/*
 * Memory and processor time over hostile pictures, format by format, by two workers:
 * npm run hostile -- [--formats jpeg,png] [--files 200] [--seed 20261126] [--write]
 * The heavy ones are drawn once, which takes minutes; --write puts the table into docs/hostile.md.
 */
const { values } = parseArgs({
  options: {
    formats: { type: 'string', default: DECODABLE.join() },
    files: { type: 'string', default: '200' },
    seed: { type: 'string', default: '20261126' },
    write: { type: 'boolean', default: false },
  },
})
const HOME = join('.cache', 'hostile')
const FILES = Number(values.files)
const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))
const say = (text: string) => process.stderr.write(`${text}\n`)

// No name fits the bench's pattern, and the rules on single deliveries are not what is measured.
const EVERY_RULE = fullSpec()
  .replace(/^naming:.*$/m, '')
  .replace(/^file-format:.*$/m, '')

async function rowOf(format: Decodable, small: readonly Buffer[]): Promise<Row> {
  const heavy = await heavyPictures(format, join(HOME, `heavy-${LIMITS.memory}`), (name) =>
    say(`Drawing ${name}`),
  )
  const folder = join(HOME, format)
  await writeDelivery({ folder, format, count: FILES, seed: Number(values.seed) }, heavy, small)
  say(`Measuring ${FILES} files of ${format} one by one`)
  const each = await timed(process.execPath, [here('hostile/measure-each.js'), folder])
  const costs = each.stdout
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Cost)
  say('Checking them by two workers')
  const checked = await check(folder, EVERY_RULE)
  say('Checking them by a spec that refuses the format')
  const other = DECODABLE.filter((one) => one !== format).join(', ')
  const refused = await check(folder, `${EVERY_RULE}file-format: { allow: [${other}] }\n`)
  const dearest = costs.reduce((most, cost) => (cost.seconds > most.seconds ? cost : most))
  return {
    format,
    files: costs.length,
    whole: costs.filter(({ fate }) => fate === 'whole').length,
    peakMiB: checked.peakMiB,
    dearest,
    refusedMiB: refused.peakMiB,
    lookedInto: refused.report.files.filter(
      ({ measurements }) => measurements.format === format && measurements.widthPx !== null,
    ).length,
  }
}

async function check(folder: string, spec: string): Promise<{ report: Report; peakMiB: number | null }> {
  const path = join(HOME, 'spec.yaml')
  await writeFile(path, spec)
  const page = ['--format', 'html', '--output', join(HOME, 'page.html')]
  const options = ['--spec', path, '--no-cache', '--format', 'json', ...page]
  const { stdout, peakMiB } = await timed(
    process.execPath,
    [here('hostile/check.js'), 'check', folder, ...options],
    1,
  )
  return { report: JSON.parse(stdout) as Report, peakMiB }
}

const originals = await drawOriginals()
const rows: Row[] = []
for (const format of DECODABLE.filter((one) => values.formats.split(',').includes(one))) {
  const small = originals.filter((one) => one.format === format).map(({ content }) => content)
  rows.push(await rowOf(format, small))
  say(JSON.stringify(rows.at(-1)))
}
const page = hostilePage(rows)
process.stdout.write(page)
if (values.write) await writeFile(join('docs', 'hostile.md'), page)
