import { Command as Program } from 'commander'
import { checkShowing } from '../checking/check-delivery.ts'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import { findPictures } from '../checking/find-pictures.ts'
import { EXIT, type Host } from '../checking/host.ts'
import type { MeasuringOptions } from '../checking/means.ts'
import { readStandard, type StandardOptions } from '../checking/standard.ts'
import { UsageError } from '../checking/usage-error.ts'
import { type Sealing, sealDelivery } from '../hand-over/seal.ts'
import { refuseTaken } from '../hand-over/write-sealed.ts'
import { exitCode } from '../judge/report.ts'
import { paragraphs } from '../report/paragraphs.ts'
import { leftSentence, totalsSentence } from '../report/sentences.ts'
import { withMeasuring } from './measuring.ts'
import { parse } from './parse.ts'
import { writeReport } from './write-report.ts'

interface Options extends StandardOptions, MeasuringOptions, Omit<Sealing, 'output'> {
  readonly output?: string
  readonly withFindings: boolean
  readonly strict: boolean
}

/**
 * `seal [paths...]`: checks a delivery and packs it, with what it was judged by, into a BagIt bag.
 * @throws UsageError when it can't be written
 */
export async function seal(args: readonly string[], host: Host): Promise<number> {
  const program = new Program('portrait-gate seal')
    .description(
      'Checks a delivery and packs it so that its receiver can tell that it is whole and unchanged.',
    )
    .argument('[paths...]', 'folders and files of the delivery', ['.'])
    .option('--output <place>', 'the zip to make, or the folder; nothing may be there yet')
    .option('--spec <file>', 'the brand spec', DEFAULT_SPEC)
    .option('--roster <file>', 'the list of people, a CSV file; replaces the one that the spec names')
    .option('--waivers <file>', 'approved exceptions, a YAML file; replaces the one that the spec names')
    .option('--gallery <path>', 'published portraits to compare with: a folder, or a file made by gallery')
    .option('--strict', 'refuse also when a portrait is unsure', false)
    .option('--with-findings', 'seal also what fails; the report that is packed says so', false)
    .option('--organization <name>', 'who delivers, for the label of the bag')
    .option('--description <text>', 'what is delivered, for the label of the bag')
    .option('--sign <key>', 'sign with this key of OpenSSH')
  const parsed = parse<Options>(withMeasuring(program), args, host)
  if ('exit' in parsed) return parsed.exit
  const { output, withFindings, strict } = parsed.options
  if (output === undefined) throw new UsageError('Say where to: --output NAME.zip, or --output FOLDER.')
  await refuseTaken(output, host)
  const read = await readStandard(parsed.options, host)
  const found = read && (await findPictures(parsed.paths, host))
  if (!read || !found) return EXIT.trouble
  const at = sealingTime(host)
  const { standard, sources } = read
  const report = await checkShowing(
    { found, standard, at, part: null, only: null, strict },
    parsed.options,
    host,
  )
  const say = (sentence: string) => host.stdout.write(paragraphs([sentence], host.stdout.columns))
  if (exitCode(report) !== EXIT.fine && !withFindings) {
    await writeReport(report, [{ format: 'table', file: null }], { at, portraits: found.files }, host)
    host.stderr.write(
      'Nothing was sealed, since the delivery does not pass. Fix it, have exceptions approved, or add --with-findings.\n',
    )
    return EXIT.fails
  }
  await sealDelivery(
    { report, portraits: found.files, sources, standard, at },
    { ...parsed.options, output },
    host,
  )
  say(totalsSentence(report))
  const left = leftSentence(report)
  if (left !== null) say(`${left.replace('Not checked', 'Not checked and not packed')}`)
  say(`Sealed${parsed.options.sign === undefined ? '' : ' and signed'}: ${output}`)
  return EXIT.fine
}

/** Now, or what makes the same bytes again. @source reproducible-builds.org, SOURCE_DATE_EPOCH: seconds since 1970 */
function sealingTime({ env }: Host): Date {
  const stated = env.SOURCE_DATE_EPOCH
  if (stated === undefined || stated === '') return new Date()
  if (/^[0-9]{1,11}$/.test(stated)) return new Date(Number(stated) * 1000)
  throw new UsageError(`SOURCE_DATE_EPOCH is ${stated}; it should be a number of seconds since 1970.`)
}
