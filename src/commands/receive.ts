import { stat } from 'node:fs/promises'
import { resolve } from 'node:path'
import { Command as Program } from 'commander'
import { type Check, checkShowing } from '../checking/check-delivery.ts'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import { EXIT, type Host } from '../checking/host.ts'
import type { MeasuringOptions } from '../checking/means.ts'
import { save } from '../checking/save.ts'
import { type ReadStandard, readStandard, type StandardOptions } from '../checking/standard.ts'
import { UsageError } from '../checking/usage-error.ts'
import { openReceived } from '../hand-over/opened.ts'
import { bagLines, termsLines } from '../hand-over/receipt-text.ts'
import { type Received, receiveDelivery } from '../hand-over/receive.ts'
import { type SignOff, signOffText } from '../hand-over/sign-off.ts'
import { exitCode } from '../judge/report.ts'
import { paragraphs } from '../report/paragraphs.ts'
import { forJson } from '../report/safe.ts'
import { EXTENSIONS, FORMATS, type Format } from './formats.ts'
import { withMeasuring } from './measuring.ts'
import { type Sink, Sinks } from './outputs.ts'
import { parse } from './parse.ts'
import { writeReport } from './write-report.ts'

interface Options extends Omit<StandardOptions, 'spec'>, MeasuringOptions {
  readonly spec?: string
  readonly output?: string
  readonly signers?: string
  readonly strict: boolean
  readonly format: string
  readonly signOff?: string
  readonly by?: string
}

/**
 * `receive PATH`: says whether a delivery is whole and unchanged, judges it by the client's own spec, and writes the
 * sign-off down.
 * @throws UsageError when the zip is refused, or something can't be read or written
 */
export async function receive(args: readonly string[], host: Host): Promise<number> {
  const reports = new Sinks(FORMATS, EXTENSIONS, 'table')
  const program = new Program('portrait-gate receive')
    .description(
      'Verifies a delivery, unpacks it safely and judges it by your own spec, never by the one that came along.',
    )
    .argument('<delivery...>', 'the zip or the folder that you were sent')
    .option('--spec <file>', `your brand spec (default: ${DEFAULT_SPEC}, where there is one)`)
    .option('--roster <file>', 'the list of people, a CSV file; replaces the one that the spec names')
    .option(
      '--waivers <file>',
      'exceptions that you approved, a YAML file; replaces the one that the spec names',
    )
    .option('--gallery <path>', 'published portraits to compare with: a folder, or a file made by gallery')
    .option('--strict', 'fail also when a portrait is unsure', false)
    .option('--output <folder>', 'keep what the zip holds there, once it is found whole and unchanged')
    .option('--signers <file>', 'keys and whose they are (ssh-keygen, allowed signers); any other is refused')
    .option('--format <format>', 'what is printed: text or json', 'text')
    .option(
      '--report <file>',
      'write the report as well: .html, .json, .csv and the like; may be repeated',
      (file: string) => reports.addOutput(file),
    )
    .option('--sign-off <file>', 'approve the delivery and write so into this file, to be sent back')
    .option('--by <name>', 'who approves it')
  const parsed = parse<Options>(withMeasuring(program), args, host)
  if ('exit' in parsed) return parsed.exit
  const {
    options,
    paths: [path = '', ...others],
  } = parsed
  const { format, by, signOff, strict } = options
  if (format !== 'text' && format !== 'json')
    throw new UsageError(`--format ${format} is unknown; choose text or json.`)
  if (others.length > 0) throw new UsageError('Name one delivery: the zip or the folder that you were sent.')
  if ((signOff === undefined) !== (by === undefined))
    throw new UsageError('--sign-off FILE and --by "NAME" belong together; give both.')
  const own = await ownStandard(options, host)
  if (own === 'trouble') return EXIT.trouble
  const opened = await openReceived(path, options.output ?? null, host)
  const at = new Date()
  try {
    const judge = (check: Check) => checkShowing(check, options, host)
    const receiving = { standard: own, signers: options.signers ?? null, strict, at, judge }
    const received = await receiveDelivery(opened, receiving, host)
    if (!received) return EXIT.trouble
    const files = reports.finish().filter(({ file }) => file !== null)
    await tell(received, { format, at, files }, host)
    const signed = by === undefined ? null : signOffText(received, approvalBy(by, at), own?.sources ?? null)
    if (received.refused === null) await opened.keep()
    if (signed !== null && signOff !== undefined) {
      await save(signOff, signed, host)
      if (format === 'text')
        host.stdout.write(
          paragraphs([`Approved: ${signOff}. Send it to the studio, and keep a copy.`], host.stdout.columns),
        )
    }
    return exitOf(received, host)
  } finally {
    await opened.close()
  }
}

function approvalBy(by: string, at: Date): SignOff {
  return { by, decision: 'approved', note: null, answers: [], at }
}

/** The client's own standard; null when there is none, 'trouble' when it has problems, which are said. */
async function ownStandard(options: Options, host: Host): Promise<ReadStandard | null | 'trouble'> {
  const isThere = await stat(resolve(host.cwd, DEFAULT_SPEC)).then(
    () => true,
    () => false,
  )
  const spec = options.spec ?? (isThere ? DEFAULT_SPEC : null)
  if (spec === null) return null
  return (await readStandard({ ...options, spec }, host)) ?? 'trouble'
}

interface Telling {
  readonly format: 'text' | 'json'
  readonly at: Date
  /** Files that the report is written to as well. */
  readonly files: readonly Sink<Format>[]
}

async function tell(received: Received, { format, at, files }: Telling, host: Host): Promise<void> {
  const { receipt, refused, found } = received
  const say = (lines: readonly string[]) => host.stdout.write(paragraphs(lines, host.stdout.columns))
  const { report } = receipt
  const written = { at, portraits: found?.files ?? [] }
  if (format === 'json') {
    if (report) await writeReport(report, files, written, host)
    host.stdout.write(`${forJson(JSON.stringify(receipt, null, 2))}\n`)
    return
  }
  say(bagLines(receipt, refused))
  if (!report) return
  host.stdout.write('\n')
  await writeReport(report, [...files, { format: 'table', file: null }], written, host)
  const terms = termsLines(receipt)
  if (terms.length > 0) say(['', ...terms])
}

function exitOf({ receipt: { report }, refused }: Received, host: Host): number {
  if (refused !== null) return EXIT.fails
  if (report) return exitCode(report)
  host.stderr.write(
    `The portraits were not judged, since there is no spec of your own; name one with --spec FILE. The studio's, which came along, would judge its own work.\n`,
  )
  return EXIT.trouble
}
