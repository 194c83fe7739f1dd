import { basename } from 'node:path'
import { Command as Program } from 'commander'
import { readNames } from '../delivery/identify.ts'
import { isInShard, listingHash, parseShard, type Shard } from '../delivery/shard.ts'
import type { Found } from '../delivery/walk.ts'
import { assembleReport } from '../judge/assemble.ts'
import { narrowed } from '../judge/narrow.ts'
import { formatsFor, requiredGroups } from '../judge/needs.ts'
import type { Sources } from '../judge/part.ts'
import { exitCode, type Report } from '../judge/report.ts'
import { knownBy, type Standard } from '../judge/standard.ts'
import { TOOL } from '../judge/tool.ts'
import { measureAll } from '../pool/measure-all.ts'
import { PORTRAITS_PER_PAGE } from '../report/html/html.ts'
import type { Pictures } from '../report/html/pictures.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { RULES } from '../rules/index.ts'
import { count } from '../text/quantity.ts'
import { findPictures } from './find-pictures.ts'
import { EXTENSIONS, FORMATS, formatted, refusePages } from './formats.ts'
import { EXIT, type Host } from './host.ts'
import { DEFAULT_SPEC } from './load-spec-file.ts'
import { type MeasuringOptions, meansOf, withMeasuring } from './measuring.ts'
import { measureOnly, readOnly } from './only.ts'
import { Sinks, UsageError, writeSinks } from './outputs.ts'
import { parse } from './parse.ts'
import { progressLine } from './progress.ts'
import { readSources, type StandardOptions, standardOf } from './standard.ts'

interface Options extends StandardOptions, MeasuringOptions {
  readonly strict: boolean
  readonly shard?: string
  readonly only?: string
}

/** `check [paths...]`: measures and judges every portrait of a delivery. */
export async function check(args: readonly string[], host: Host): Promise<number> {
  const sinks = new Sinks(FORMATS, EXTENSIONS, 'table')
  const program = new Program('portrait-gate check')
    .description('Measures every portrait and judges it by the brand spec.')
    .argument('[paths...]', 'folders and files of the delivery', ['.'])
    .option('--spec <file>', 'the brand spec', DEFAULT_SPEC)
    .option('--roster <file>', 'the list of people, a CSV file; replaces the one that the spec names')
    .option('--waivers <file>', 'approved exceptions, a YAML file; replaces the one that the spec names')
    .option('--gallery <path>', 'published portraits to compare with: a folder, or a file made by gallery')
    .option('--format <format>', `${FORMATS.join(', ')}; may be given again`, (format: string) =>
      sinks.addFormat(format),
    )
    .option(
      '--output <file>',
      'write the format before it to a file instead of printing it',
      (file: string) => sinks.addOutput(file),
    )
    .option('--strict', 'fail also when a portrait is unsure', false)
    .option('--shard <part>', 'one part of several, such as 2/5; put the JSON reports together with merge')
    .option(
      '--only <list>',
      'judge one by one only the portraits that this file lists; the delivery as a whole as ever',
    )
  const parsed = parse<Options>(withMeasuring(program), args, host)
  if ('exit' in parsed) return parsed.exit
  const outputs = sinks.finish()
  const shard = shardOf(parsed.options.shard)
  const { only: list, strict } = parsed.options
  if (shard && list !== undefined)
    throw new UsageError('--shard and --only exclude each other; leave one out.')
  const only = list === undefined ? null : await readOnly(list, host)
  const sources = await readSources(parsed.options, host)
  const standard = sources && standardOf(sources, host)
  if (!standard) return EXIT.trouble
  const found = await findPictures(parsed.paths, host)
  if (!found) return EXIT.trouble
  if (found.files.length > PORTRAITS_PER_PAGE) refusePages(outputs, found.files.length)
  const at = new Date()
  const report = await judge(
    { found, sources, standard, at, shard, only, strict, options: parsed.options },
    host,
  )
  const html = outputs.some(({ format }) => format === 'html')
  const pictures: Pictures = html ? await picturesFor(report, found, host) : new Map()
  await writeSinks(
    outputs,
    (format, layout, file) => {
      const name = file === null ? 'report.html' : basename(file)
      return formatted(report, format, layout, { pictures, at, name })
    },
    host,
  )
  // A part of a small delivery may well have no file; the whole is judged by merge.
  return report.part && report.totals.files === 0 ? EXIT.fine : exitCode(report)
}

async function picturesFor(report: Report, found: Found, host: Host): Promise<Pictures> {
  // Loaded for this report alone: it brings the picture library along.
  const { makePictures } = await import('../report/html/pictures.ts')
  return makePictures(report, found.files, host.signal)
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

interface Work {
  readonly found: Found
  readonly sources: Sources
  readonly standard: Standard
  readonly at: Date
  readonly shard: Shard | null
  /** Absolute paths of the files to judge one by one; null for all. */
  readonly only: ReadonlySet<string> | null
  readonly strict: boolean
  readonly options: MeasuringOptions
}

async function judge(
  { found, sources, standard, at, shard, only, strict, options }: Work,
  host: Host,
): Promise<Report> {
  const { spec } = standard
  const known = knownBy(standard)
  // Names are read all together, since two can collide.
  const names = new Map(
    readNames(found.files, spec.naming, known.deliverables).map((name) => [name.path, name]),
  )
  const nameOf = (file: string) => {
    const name = names.get(file)
    if (!name) throw new Error(`No name was read for ${file}.`)
    return name
  }
  const files = found.files
    .filter(({ file }) => shard === null || isInShard(file, shard))
    .map((one) => ({ ...one, formats: formatsFor(nameOf(one.file), spec, RULES) }))
  const progress = progressLine(host)
  const means = await meansOf(options, host, progress.show)
  const groups = requiredGroups(spec, ALL_RULES, known)
  const measured = only
    ? await measureOnly(files, only, standard, means)
    : await measureAll(files, groups, means)
  progress.clear()
  const read = measured.map((one) => ({ name: nameOf(one.file), measured: one }))
  const listing = listingHash(found.files.map(({ file }) => file))
  const about = { total: found.files.length, listing, sources, names: read.map(({ name }) => name) }
  const report = assembleReport(
    {
      tool: TOOL,
      strict,
      today: at.toISOString().slice(0, 10),
      left: found.left,
      files: read,
      ...(shard && { part: { ...shard, ...about } }),
    },
    standard,
  )
  if (!only) return report
  const asked = files.filter(({ path }) => only.has(path)).map(({ file }) => file)
  host.stderr.write(`Judged one by one: ${asked.length} of ${count(files.length, 'portrait')}.\n`)
  return narrowed(report, new Set(asked))
}
