import { spawnSync } from 'node:child_process'
import { mkdir, readFile } from 'node:fs/promises'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import type { Host } from '../src/checking/host.ts'
import { run } from '../src/commands/run.ts'
import { THIS_PROCESS } from '../src/files/this-process.ts'
import type { Report } from '../src/judge/report.ts'

/**
 * Checks the example's clean and faulty delivery, shows both tables, and compares what fails with what was planted: by the code beside it, or
 * by the command that its arguments name.
 */

const EXAMPLE = 'examples/osprey-lane'

interface Planted {
  readonly files: readonly {
    readonly file: string
    readonly rules: readonly string[]
    readonly waived?: readonly string[]
  }[]
  readonly delivery: readonly {
    readonly fault: string
    readonly rule: string
    readonly people: readonly string[]
    readonly files: readonly string[]
  }[]
}
type SetFault = Planted['delivery'][number]
type SetOutcome = Report['delivery']['outcomes'][number]

const out = process.stdout
const columns = out.columns ?? 80

async function check(delivery: string): Promise<Report> {
  const paths = [join(EXAMPLE, delivery), '--spec', join(EXAMPLE, 'brand.yaml')]
  out.write(`$ portrait-gate check ${paths.join(' ')}\n\n`)
  const reportFile = join('.cache', `demo-${delivery}.json`)
  await judged(['check', ...paths, '--format', 'table', '--format', 'json', '--output', reportFile])
  return JSON.parse(await readFile(reportFile, 'utf8')) as Report
}

async function judged(args: readonly string[]): Promise<void> {
  const [command, ...before] = process.argv.slice(2)
  if (command !== undefined) {
    // What another command or version of Node measured proves nothing of this one.
    const { error } = spawnSync(command, [...before, ...args, '--no-cache'], { stdio: 'inherit' })
    if (error) throw error
    return
  }
  const host: Host = {
    cwd: process.cwd(),
    stdout: { write: (text) => out.write(text), columns, isTTY: out.isTTY === true },
    stderr: { write: (text) => process.stderr.write(text), columns, isTTY: process.stderr.isTTY === true },
    env: process.env,
    workers: availableParallelism(),
    userCache: null,
    processes: THIS_PROCESS,
    signal: new AbortController().signal,
  }
  await run(args, host)
}

const isMiss = ({ verdict }: SetOutcome | Report['files'][number]['outcomes'][number]): boolean =>
  verdict === 'fail' || verdict === 'unsure'

/** "file: rule" of everything that fails or is unsure, with "(waived)" where an exception covers it. */
function found({ files }: Report): string[] {
  return files.flatMap(({ file, outcomes }) =>
    outcomes.filter(isMiss).map(({ rule, waiver }) => `${file}: ${rule}${waiver ? ' (waived)' : ''}`),
  )
}

function isToldBy(fault: SetFault, outcome: SetOutcome): boolean {
  const names = fault.people.length > 0 ? fault.people : fault.files
  const named = fault.people.length > 0 ? outcome.people : outcome.files
  const files = fault.files.every((file) => outcome.files.includes(file))
  return isMiss(outcome) && outcome.rule === fault.rule && files && names.every((one) => named.includes(one))
}

await mkdir('.cache', { recursive: true })
const planted = JSON.parse(await readFile(join(EXAMPLE, 'planted.json'), 'utf8')) as Planted
const wanted = planted.files.flatMap(({ file, rules, waived = [] }) =>
  rules.map((rule) => `${file}: ${rule}${waived.includes(rule) ? ' (waived)' : ''}`),
)

const cleanReport = await check('delivery-clean')
out.write('\n')
const faultyReport = await check('delivery-faulty')
const faulty = found(faultyReport)
const setMisses = ({ delivery }: Report) => delivery.outcomes.filter((one) => isMiss(one) && !one.waiver)
const told = setMisses(faultyReport)
const missed = [
  ...wanted.filter((one) => !faulty.includes(one)),
  ...planted.delivery.filter((fault) => !told.some((one) => isToldBy(fault, one))).map(({ fault }) => fault),
]
const extra = [
  ...found(cleanReport),
  ...faulty.filter((one) => !wanted.includes(one)),
  ...[
    ...setMisses(cleanReport),
    ...told.filter((one) => !planted.delivery.some((fault) => isToldBy(fault, one))),
  ].map(({ rule, reason }) => `${rule}: ${reason}`),
]

out.write('\n')
if (missed.length === 0 && extra.length === 0) {
  out.write(
    `The clean delivery passes. In the other, all planted faults were found, and nothing else: ${planted.files.length} files fail by themselves, and the set has ${planted.delivery.length} findings.\n`,
  )
} else {
  out.write(`Not as planted: ${missed.length} missed, ${extra.length} found that were not planted.\n`)
  for (const one of missed) out.write(`  missed: ${one}\n`)
  for (const one of extra) out.write(`  not planted: ${one}\n`)
  process.exitCode = 1
}
