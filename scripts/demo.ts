import { mkdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import process from 'node:process'
import type { Host } from '../src/commands/host.ts'
import { run } from '../src/commands/run.ts'
import type { Report } from '../src/report/report.ts'

/** Checks the example's clean and faulty delivery, shows both tables, and compares what fails with what was planted. */

const EXAMPLE = 'examples/osprey-lane'

interface Planted {
  readonly file: string
  readonly fault: string
  readonly rules: readonly string[]
}

const out = process.stdout
const columns = out.columns ?? 80

async function check(delivery: string): Promise<Report> {
  const paths = [join(EXAMPLE, delivery), '--spec', join(EXAMPLE, 'brand.yaml')]
  out.write(`$ portrait-gate check ${paths.join(' ')}\n\n`)
  const reportFile = join('.cache', `demo-${delivery}.json`)
  const host: Host = {
    cwd: process.cwd(),
    stdout: { write: (text) => out.write(text), columns, isTTY: out.isTTY === true },
    stderr: { write: (text) => process.stderr.write(text), columns, isTTY: process.stderr.isTTY === true },
    env: process.env,
    signal: new AbortController().signal,
  }
  await run(['check', ...paths, '--format', 'table', '--format', 'json', '--output', reportFile], host)
  return JSON.parse(await readFile(reportFile, 'utf8')) as Report
}

/** "file: rule" of everything that fails or needs a look. */
function found({ files }: Report): string[] {
  return files.flatMap(({ file, outcomes }) =>
    outcomes
      .filter(({ verdict }) => verdict === 'fail' || verdict === 'unsure')
      .map(({ rule }) => `${file}: ${rule}`),
  )
}

await mkdir('.cache', { recursive: true })
const planted = JSON.parse(await readFile(join(EXAMPLE, 'planted.json'), 'utf8')) as Planted[]
const wanted = planted.flatMap(({ file, rules }) => rules.map((rule) => `${file}: ${rule}`))

const clean = found(await check('delivery-clean'))
out.write('\n')
const faulty = found(await check('delivery-faulty'))
const missed = wanted.filter((one) => !faulty.includes(one))
const extra = [...clean, ...faulty.filter((one) => !wanted.includes(one))]

out.write('\n')
if (missed.length === 0 && extra.length === 0) {
  out.write(
    `The clean delivery passes, and of the ${planted.length} faults planted in the other all were found and nothing else.\n`,
  )
} else {
  out.write(`Not as planted: ${missed.length} missed, ${extra.length} found that were not planted.\n`)
  for (const one of missed) out.write(`  missed: ${one}\n`)
  for (const one of extra) out.write(`  not planted: ${one}\n`)
  process.exitCode = 1
}
