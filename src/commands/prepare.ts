import { stat } from 'node:fs/promises'
import { resolve } from 'node:path'
import { Command as Program } from 'commander'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import { findPictures } from '../checking/find-pictures.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { type MeasuringOptions, meansOf } from '../checking/means.ts'
import { progressLine } from '../checking/progress.ts'
import { readStandard, type StandardOptions } from '../checking/standard.ts'
import { UsageError } from '../checking/usage-error.ts'
import { isInside } from '../files/folders.ts'
import { placesFor } from '../prepare/ledger/places.ts'
import type { Prepared } from '../prepare/ledger/prepared.ts'
import type { PreparePlan } from '../prepare/planning/plan.ts'
import { planned, prepare as prepareFiles } from '../prepare/prepare.ts'
import { planJson } from '../prepare/telling/plan-json.ts'
import { planLines, preparedLines } from '../prepare/telling/table.ts'
import { paragraphs } from '../report/paragraphs.ts'
import { forJson } from '../report/safe.ts'
import { listed } from '../text/quantity.ts'
import { writeMasters } from './masters-report.ts'
import { withMeasuring } from './measuring.ts'
import { parse } from './parse.ts'

interface Options extends StandardOptions, MeasuringOptions {
  readonly output: string
  readonly from?: string[]
  readonly deliverable?: string[]
  readonly plan: boolean
  readonly replace: boolean
  readonly strict: boolean
  readonly format: string
  readonly report?: string
}

/**
 * `prepare [masters...]`: makes the ordered files of retouched masters, and delivers those without a failure.
 * @throws UsageError when the command line or a file that it names is not as it should be, or something can't be written
 */
export async function prepare(args: readonly string[], host: Host): Promise<number> {
  const program = new Program('portrait-gate prepare')
    .description(
      'Makes the ordered files of retouched masters, checks them, and delivers those without a failure.',
    )
    .argument('[masters...]', 'folders and files of masters, or of a delivery to make anew', ['.'])
    .requiredOption('--output <folder>', 'the folder of the delivery')
    .option('--from <path...>', 'make the delivery that is named anew, of these masters')
    .option('--spec <file>', 'the brand spec', DEFAULT_SPEC)
    .option('--roster <file>', 'the list of people, a CSV file; replaces the one that the spec names')
    .option('--waivers <file>', 'approved exceptions, a YAML file; replaces the one that the spec names')
    .option('--gallery <path>', 'published portraits to frame like: a folder, or a file made by gallery')
    .option('--deliverable <name...>', 'make only these deliverables')
    .option('--plan', 'say what would be done, and write nothing', false)
    .option('--replace', 'replace files of the delivery that prepare has not made', false)
    .option('--strict', 'hold back also what is unsure', false)
    .option('--format <format>', 'table, json', 'table')
    .option('--report <file>', 'also write a page that shows each master with its crops, such as crops.html')
  const parsed = parse<Options>(withMeasuring(program), args, host)
  if ('exit' in parsed) return parsed.exit
  const { options, paths } = parsed
  if (options.format !== 'table' && options.format !== 'json')
    throw new UsageError(`--format ${options.format} is unknown; choose table or json.`)
  const places = placesFor(resolve(host.cwd, options.output))
  await refuseFile(places.output, options.output)
  refuseMixing([...paths, ...(options.from ?? [])], places.output, host)
  const read = await readStandard(options, host)
  if (!read) return EXIT.trouble
  const { standard } = read
  const ordered = Object.keys(standard.spec.deliverables)
  const unknown = options.deliverable?.find((name) => !ordered.includes(name))
  if (unknown !== undefined) {
    const fix =
      ordered.length === 0 ? 'which has none; leave the option out' : `choose ${listed(ordered, 'or')}`
    throw new UsageError(`--deliverable ${unknown} is not in the spec; ${fix}.`)
  }
  const found = await findPictures(options.from ?? paths, host)
  const delivered = options.from ? await findPictures(paths, host) : { files: [] }
  if (!found || !delivered) return EXIT.trouble
  const progress = progressLine(host)
  const means = await meansOf(options, host, progress.show)
  const { deliverable: deliverables, replace, strict, report } = options
  const at = new Date()
  const preparing = {
    ...{
      masters: found.files,
      delivered: delivered.files,
      standard,
      places,
      replace,
      strict,
      at,
      processes: host.processes,
    },
    ...(deliverables && { deliverables }),
  }
  const say = (lines: readonly string[]) => host.stdout.write(paragraphs(lines, host.stdout.columns))
  if (options.plan) {
    const plan = await planned(preparing, means)
    progress.clear()
    if (options.format === 'json') host.stdout.write(forJson(planJson(plan)))
    else say(planLines(plan))
    if (report !== undefined) await writeMasters(report, { plan, prepared: null, standard, at }, host)
    return planExit(plan)
  }
  const done = await prepareFiles(preparing, means).catch((error: unknown) => {
    host.signal.throwIfAborted()
    throw writingTrouble(error)
  })
  progress.clear()
  if ('busy' in done)
    throw new UsageError(
      `Another run (process ${done.busy}) is preparing ${options.output}. Wait until it has ended, and run again.`,
    )
  if ('unreadable' in done)
    throw new UsageError(
      `${done.unreadable} is not what prepare has written, so nobody can tell what it has made. Move it away, and run again with --replace.`,
    )
  const { plan, prepared } = done
  if (options.format === 'json') host.stdout.write(`${forJson(JSON.stringify(prepared, null, 2))}\n`)
  else say(preparedLines(prepared))
  if (report !== undefined) await writeMasters(report, { plan, prepared, standard, at }, host)
  return preparedExit(prepared)
}

/** Said before anything is measured. */
async function refuseFile(path: string, named: string): Promise<void> {
  const there = await stat(path).catch(() => null)
  if (there && !there.isDirectory())
    throw new UsageError(`--output ${named} is a file; name a folder for the delivery.`)
}

/** What is written must not be taken for masters by the next run, nor be one now. */
function refuseMixing(paths: readonly string[], output: string, { cwd }: Host): void {
  const mixed = paths.find(
    (path) => isInside(output, resolve(cwd, path)) || isInside(resolve(cwd, path), output),
  )
  if (mixed !== undefined)
    throw new UsageError(
      `--output must lie apart from the masters, and one of ${mixed} and the output folder holds the other. Name a folder beside them.`,
    )
}

/** What a failed writing comes to in words; any other error as it is. */
function writingTrouble(error: unknown): unknown {
  if (!(error instanceof Error && 'syscall' in error && 'code' in error)) return error
  const what =
    error.code === 'ENOSPC' ? 'The disk is full' : `The files could not be written (${error.message})`
  return new UsageError(
    `${what}; every file of the delivery is whole. Free some space or name another folder, and run again.`,
  )
}

function planExit({ files, unmade }: PreparePlan): number {
  if (files.length === 0) return EXIT.trouble
  return unmade.length > 0 ? EXIT.fails : EXIT.fine
}

function preparedExit({ files, unmade }: Prepared): number {
  if (files.length === 0) return EXIT.trouble
  const isWhole = unmade.length === 0 && files.every(({ state }) => state === 'delivered')
  return isWhole ? EXIT.fine : EXIT.fails
}
