import { Command as Program } from 'commander'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import { findPictures } from '../checking/find-pictures.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { type MeasuringOptions, meansOf } from '../checking/means.ts'
import { progressLine } from '../checking/progress.ts'
import { namesOf } from '../checking/sources.ts'
import { readStandard, type StandardOptions } from '../checking/standard.ts'
import { UsageError } from '../checking/usage-error.ts'
import { withZipAsFolder } from '../checking/zip-as-folder.ts'
import type { FoundFile } from '../delivery/walk.ts'
import type { Standard } from '../judge/standard.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import type { NameReading } from '../naming/name-reading.ts'
import { findPeople } from '../people/people.ts'
import { measureAll } from '../pool/measure-all.ts'
import { comparePublished } from '../published/compare.ts'
import type { PublishedReport } from '../published/finding.ts'
import type { Picture } from '../published/publication.ts'
import { publishedLines } from '../published/report-text.ts'
import { findShown, type Shown } from '../published/shown.ts'
import { paragraphs } from '../report/paragraphs.ts'
import { forJson } from '../report/safe.ts'
import { withMeasuring } from './measuring.ts'
import { parse } from './parse.ts'

interface Options extends StandardOptions, MeasuringOptions {
  readonly approved?: string
  readonly strict: boolean
  readonly format: string
}

/** `published PLACE`: holds the pictures of a website against those that were approved. */
export async function published(args: readonly string[], host: Host): Promise<number> {
  const program = new Program('portrait-gate published')
    .description(
      'Says whether what is shown in public is what was approved: whose pictures are missing, old, swapped, cropped anew or without credit.',
    )
    .argument('<shown...>', 'a folder of downloaded pictures, or a CSV file that lists pictures and people')
    .option('--approved <place>', 'what was approved: a folder, a zip or a sealed delivery')
    .option('--spec <file>', 'the brand spec', DEFAULT_SPEC)
    .option('--roster <file>', 'the list of people, a CSV file; replaces the one that the spec names')
    .option('--strict', 'fail also when something is to be checked by eye', false)
    .option('--format <format>', 'what is printed: text or json', 'text')
  const parsed = parse<Options>(withMeasuring(program), args, host)
  if ('exit' in parsed) return parsed.exit
  const {
    options,
    paths: [place = '', ...others],
  } = parsed
  const { approved, format, strict } = options
  if (approved === undefined)
    throw new UsageError('Say what was approved: --approved FOLDER, or the zip that you received.')
  if (others.length > 0) throw new UsageError('Name one place: the folder of pictures, or the list.')
  if (format !== 'text' && format !== 'json')
    throw new UsageError(`--format ${format} is unknown; choose text or json.`)
  const read = await readStandard(options, host)
  const shown = read && (await findShown(place, read.standard.spec, host))
  if (!read || !shown) return EXIT.trouble
  return withZipAsFolder([approved], host, async (paths) => {
    const found = await findPictures(paths, host, [approved])
    if (!found) return EXIT.trouble
    const report = await compared(shown, found.files, read.standard, options, host)
    host.stdout.write(
      format === 'json'
        ? `${forJson(JSON.stringify(report, null, 2))}\n`
        : paragraphs(publishedLines(report), host.stdout.columns),
    )
    return report.verdict === 'fail' || (strict && report.verdict === 'unsure') ? EXIT.fails : EXIT.fine
  })
}

async function compared(
  shown: Shown,
  approved: readonly FoundFile[],
  standard: Standard,
  measuring: MeasuringOptions,
  host: Host,
): Promise<PublishedReport> {
  const { spec, roster } = standard
  const progress = progressLine(host)
  const means = await meansOf(measuring, host, progress.show)
  const groups = [
    'file',
    'checksum',
    'metadata',
    'decode',
    'background',
    'face',
    'head',
    'signature',
  ] as const
  const before = await measureAll(approved, groups, means)
  const now = await measureAll(shown.files, groups, means)
  progress.clear()
  const nameOf = namesOf(approved, standard)
  const names = [...before.map(({ file }) => nameOf(file)), ...shown.names]
  const { people, attributions } = findPeople(names, spec.naming, roster)
  const byLabel = new Map(people.map((person) => [person.label, person]))
  const picture = (name: NameReading, measured: Measurements, index: number): Picture => ({
    ...{ name, measured },
    person: byLabel.get(attributions[index]?.person ?? '') ?? null,
  })
  const wanted = roster ? people.filter(({ entry }) => entry !== null) : people
  const report = {
    approved: before.map((one, i) => picture(nameOf(one.file), one, i)),
    shown: shown.names.flatMap((name, i) => {
      const measured = now[i]
      return measured ? [picture(name, measured, before.length + i)] : []
    }),
    ...{ people: wanted, hasRoster: roster !== null, spec, today: new Date().toISOString().slice(0, 10) },
  }
  return comparePublished(report, shown.findings)
}
