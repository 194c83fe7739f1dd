import { mkdir, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { parseArgs } from 'node:util'
import { type Message, type Range, runBatch } from '../tests/long/fuzz/batch.ts'
import { runCampaign } from '../tests/long/fuzz/campaign.ts'
import { nameOf } from '../tests/long/fuzz/examine.ts'
import { mutant } from '../tests/long/fuzz/mutant.ts'
import { drawOriginals } from '../tests/long/fuzz/originals.ts'

/**
 * Measures and judges spoiled pictures and looks whether all that is said of them can be true; ends with code 1 when
 * something can't. The same seed and number give the same file.
 *
 *     npm run fuzz -- --files 20000 --seed 20261125
 *     npm run fuzz -- --seed 20261125 --save 4711     # writes one file to look at
 */
const { values } = parseArgs({
  options: {
    files: { type: 'string', default: '2000' },
    seed: { type: 'string', default: '1' },
    processes: { type: 'string', default: '2' },
    save: { type: 'string' },
    batch: { type: 'string' },
  },
})
const seed = Number(values.seed)

if (values.batch !== undefined) await batch(values.batch)
else if (values.save !== undefined) await save(Number(values.save))
else await campaign()

/** One process of a campaign: the range and its number, as JSON. */
async function batch(json: string): Promise<void> {
  const { from, to, process: number } = JSON.parse(json) as Range & { readonly process: number }
  const folder = join(tmpdir(), `portrait-gate-fuzz-${process.ppid}-${number}`)
  const tell = (message: Message) => process.stdout.write(`${JSON.stringify(message)}\n`)
  await runBatch({ seed, from, to }, folder, tell, () => process.resourceUsage().maxRSS / 1024)
}

async function save(number: number): Promise<void> {
  const { original, by, content } = mutant(number, seed, await drawOriginals())
  const folder = join('.cache', 'fuzz')
  await mkdir(folder, { recursive: true })
  const path = join(folder, nameOf(number, original.format))
  await writeFile(path, content)
  process.stdout.write(`${path}: ${original.name}, ${by}\n`)
}

async function campaign(): Promise<void> {
  let told = 0
  const summary = await runCampaign({
    files: Number(values.files),
    seed,
    processes: Number(values.processes),
    start: (range, number) => [
      process.execPath,
      [
        import.meta.filename,
        '--seed',
        String(seed),
        '--batch',
        JSON.stringify({ ...range, process: number }),
      ],
    ],
    progress: (done) => {
      if (done < told + 500) return
      told = done
      process.stderr.write(`${done} files\n`)
    },
  })
  process.stdout.write(`${JSON.stringify({ seed, ...summary }, null, 2)}\n`)
  if (summary.findings.length > 0) process.exitCode = 1
}
