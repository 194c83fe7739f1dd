import { Command as Program } from 'commander'
import { checkExit, checkShowing } from '../checking/check-delivery.ts'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import { findPictures } from '../checking/find-pictures.ts'
import { EXIT, type Host } from '../checking/host.ts'
import type { MeasuringOptions } from '../checking/means.ts'
import { readOnly } from '../checking/only.ts'
import { readStandard, type StandardOptions } from '../checking/standard.ts'
import { UsageError } from '../checking/usage-error.ts'
import { withZipAsFolder } from '../checking/zip-as-folder.ts'
import { parseShard, type Shard } from '../delivery/shard.ts'
import { PORTRAITS_PER_PAGE } from '../report/html/per-page.ts'
import { ALL, DETAILED, EXTENSIONS, FORMATS, refusePages } from './formats.ts'
import { withMeasuring } from './measuring.ts'
import { Sinks } from './outputs.ts'
import { parse } from './parse.ts'
import { readEarlier, withSince } from './reading/since.ts'

interface Options extends StandardOptions, MeasuringOptions {
  readonly all: boolean
  readonly strict: boolean
  readonly shard?: string
  readonly only?: string
  readonly partial: boolean
  readonly since?: string
  readonly frames: boolean
}

/** `check [paths...]`: measures and judges every portrait of a delivery. */
export async function check(args: readonly string[], host: Host): Promise<number> {
  const sinks = new Sinks(FORMATS, EXTENSIONS, 'table')
  const program = new Program('portrait-gate check')
    .description('Measures every portrait and judges it by the brand spec.')
    .argument('[paths...]', 'folders and files of the delivery, or one zip', ['.'])
    .option('--spec <file>', 'the brand spec', DEFAULT_SPEC)
    .option('--roster <file>', 'the list of people, a CSV file; replaces the one that the spec names')
    .option('--waivers <file>', 'approved exceptions, a YAML file; replaces the one that the spec names')
    .option('--gallery <path>', 'published portraits to compare with: a folder, or a file made by gallery')
    .option('--format <format>', `${FORMATS.join(', ')}; may be repeated`, (format: string) =>
      sinks.addFormat(format),
    )
    .option(
      '--output <file>',
      'write the preceding format to a file instead of printing it',
      (file: string) => sinks.addOutput(file),
    )
    .option('--all', ALL, false)
    .option('--strict', 'fail also when a portrait is unsure', false)
    .option('--shard <part>', 'check one part of several, such as 2/5; merge combines their JSON reports')
    .option(
      '--only <list>',
      'judge one by one only the portraits listed in this file; the delivery as a whole is judged as usual',
    )
    .option(
      '--partial',
      'these are only some of the files, such as retakes or one day: nobody else is missing',
      false,
    )
    .option(
      '--frames',
      'these are frames as the camera made them: can every deliverable be cropped from each?',
      false,
    )
    .option('--since <report>', 'also tell what is new, remains or is fixed since an earlier JSON report')
  const parsed = parse<Options>(withMeasuring(program), args, host)
  if ('exit' in parsed) return parsed.exit
  const outputs = sinks.finish()
  const shard = shardOf(parsed.options.shard)
  const { all, only: list, partial, since, strict, frames, waivers, gallery } = parsed.options
  const framing = frames ? await import('./frames.ts') : null
  framing?.refuseBesideFrames({ shard, only: list, partial, since, waivers, gallery })
  const card = framing?.frameSinks(outputs)
  for (const [name, given] of Object.entries({ only: list, partial: partial || undefined, since }))
    if (shard && given !== undefined)
      throw new UsageError(`--shard and --${name} cannot be combined; leave one out.`)
  if (partial && list !== undefined)
    throw new UsageError('--only needs the whole delivery and --partial is for a part of it; leave one out.')
  const earlier = since === undefined ? null : await readEarlier(since, host)
  const only = list === undefined ? null : await readOnly(list, host)
  const read = await readStandard(parsed.options, host)
  if (!read) return EXIT.trouble
  return withZipAsFolder(parsed.paths, host, async (paths) => {
    if (only && paths !== parsed.paths)
      throw new UsageError('--only lists files of a folder, and this is a zip; unpack it first.')
    const found = await findPictures(paths, host, parsed.paths)
    if (!found) return EXIT.trouble
    if (framing && card)
      return framing.checkCard({ found, standard: read.standard, strict }, parsed.options, card, host)
    if (found.files.length > PORTRAITS_PER_PAGE) refusePages(outputs, found.files.length)
    const at = new Date()
    const { standard, sources } = read
    const part = shard && { shard, origin: null, sources }
    const checking = checkShowing(
      {
        ...{ found, standard, at, part, only, partial, strict },
        detailed: earlier !== null || outputs.some(({ format }) => DETAILED.includes(format)),
      },
      parsed.options,
      host,
    )
    // Loaded while workers measure.
    const [judged, { writeReport }] = await Promise.all([checking, import('./write-report.ts')])
    const looked = partial ? 'part' : only ? 'only' : 'all'
    const report = earlier && since ? withSince(judged, { earlier, path: since, looked }) : judged
    await writeReport(report, outputs, { at, portraits: found.files, all }, host)
    return checkExit(report)
  })
}

/** @throws UsageError when it is not of the form 2/5 */
function shardOf(text: string | undefined): Shard | null {
  if (text === undefined) return null
  const shard = parseShard(text)
  if (shard) return shard
  throw new UsageError(
    `--shard ${text} is not a part of a whole; write the part and the number of parts, such as 2/5.`,
  )
}
