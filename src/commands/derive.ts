import { dirname, join, relative, resolve, sep } from 'node:path'
import { Command as Program } from 'commander'
import { loadSpec } from '../brand-spec/load.ts'
import { schemaText } from '../brand-spec/schema.ts'
import { SCHEMA_FILE } from '../brand-spec/starter.ts'
import { findPictures } from '../checking/find-pictures.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { type MeasuringOptions, meansOf } from '../checking/means.ts'
import { progressLine } from '../checking/progress.ts'
import { save } from '../checking/save.ts'
import { UsageError } from '../checking/usage-error.ts'
import { withZipAsFolder } from '../checking/zip-as-folder.ts'
import { readNames } from '../delivery/identify.ts'
import type { FoundFile } from '../delivery/walk.ts'
import { deriveSpec } from '../derive/derive-spec.ts'
import { knownNames } from '../derive/known-names.ts'
import type { KnownNames } from '../derive/name-slots.ts'
import { USUAL_NEEDS } from '../derive/usual.ts'
import { isInside } from '../files/folders.ts'
import { readSourceText } from '../files/source-text.ts'
import { isStream } from '../files/write-whole.ts'
import { judgeFile } from '../judge/judge.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { measureAll } from '../pool/measure-all.ts'
import { forTerminal } from '../report/safe.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { RULES } from '../rules/index.ts'
import { withMeasuring } from './measuring.ts'
import { parse } from './parse.ts'
import { refuseToOverwrite, writeNew } from './write-new.ts'

interface Options extends MeasuringOptions {
  readonly roster?: string
  readonly brand: string
  readonly output?: string
  readonly force?: true
}

/** All that a line is proposed from. */
const GROUPS: readonly MeasurementGroup[] = [
  ...new Set<MeasurementGroup>([
    ...(['file', 'metadata', 'decode', 'background', 'face', 'head', 'finish', 'focus'] as const),
    ...USUAL_NEEDS,
  ]),
]

/**
 * `derive [paths...]`: measures approved portraits and writes the spec that they seem to have been made to; tells which
 * of them do not meet it.
 * @throws UsageError when the roster can't be read, something else is where the spec goes, or it can't be written
 */
export async function derive(args: readonly string[], host: Host): Promise<number> {
  const program = new Program('portrait-gate derive')
    .description(
      'Measures approved portraits and proposes a brand spec, with a note on the basis of each line.',
    )
    .argument('[paths...]', 'folders and files of approved portraits, or one zip', ['.'])
    .option(
      '--roster <file>',
      'the list of people, a CSV file, named in the spec; shows which part of a file name is which',
    )
    .option('--brand <name>', 'the client', 'Name of the client')
    .option(
      '--output <file>',
      `write to a file instead of printing, with ${SCHEMA_FILE} for editors beside it`,
    )
    .option('--force', 'overwrite existing files')
  const parsed = parse<Options>(withMeasuring(program), args, host)
  if ('exit' in parsed) return parsed.exit
  const { roster, brand, output, force = false } = parsed.options
  const isFile = output !== undefined && !(await isStream(resolve(host.cwd, output)))
  const schema = isFile ? [{ file: join(dirname(output), SCHEMA_FILE), text: schemaText(ALL_RULES) }] : []
  // Before the measuring, which takes long.
  if (isFile && !force) await refuseToOverwrite([{ file: output, text: null }, ...schema], host)
  const known = roster === undefined ? new Map() : await rosterNames(roster, host)
  return withZipAsFolder(parsed.paths, host, async (paths) => {
    const found = await findPictures(paths, host, parsed.paths)
    if (!found) return EXIT.trouble
    const progress = progressLine(host)
    const means = await meansOf(parsed.options, host, progress.show)
    const measured = await measureAll(found.files, GROUPS, means)
    progress.clear()
    const complain = (sentence: string) => host.stderr.write(`${forTerminal(sentence)}\n`)
    for (const { file, fault } of measured) if (fault) complain(`${file} could not be read and was left out.`)
    const readable = measured.filter(({ fault }) => fault === null)
    if (readable.length === 0) {
      complain('None of the portraits could be read; there is nothing to derive a spec from.')
      return EXIT.trouble
    }
    const beside = { schema: isFile, roster: roster === undefined ? null : besideSpec(roster, output, host) }
    const { text } = deriveSpec(readable, brand, known, beside)
    if (output === undefined) host.stdout.write(text)
    else if (isFile) await writeNew([{ file: output, text }, ...schema], force, host)
    else await save(output, text, host)
    for (const sentence of judged(text, found.files, readable)) complain(sentence)
    return EXIT.fine
  })
}

/** How the approved portraits fare by their own spec, in sentences. */
function judged(text: string, files: readonly FoundFile[], readable: readonly Measurements[]): string[] {
  const loaded = loadSpec(text, 'the derived spec', ALL_RULES)
  if ('problems' in loaded)
    throw new Error(`The derived spec does not load: ${loaded.problems[0]?.message ?? ''}`)
  const names = readNames(files, loaded.spec.naming, Object.keys(loaded.spec.deliverables))
  const missing = readable.flatMap((measured) => {
    const name = names.find(({ path }) => path === measured.file)
    if (!name) return []
    const outcomes = judgeFile({ measured, name }, loaded.spec, RULES)
    const missed = outcomes.filter(({ verdict }) => verdict === 'fail' || verdict === 'unsure')
    return missed.length === 0 ? [] : [`  ${measured.file}: ${missed.map(({ rule }) => rule).join(', ')}`]
  })
  const passing = readable.length - missing.length
  return missing.length === 0
    ? [`All ${readable.length} portraits pass the derived spec.`]
    : [
        `${passing} of ${readable.length} portraits pass the derived spec. The others fail, or are unsure, in:`,
        ...missing,
      ]
}

async function rosterNames(file: string, host: Host): Promise<KnownNames> {
  const read = await readSourceText(resolve(host.cwd, file))
  if ('problem' in read) throw new UsageError(`The roster file ${file} ${read.problem}`)
  const names = knownNames(read.text)
  if ('problem' in names) throw new UsageError(`The roster file ${file}, ${names.problem}`)
  return names.known
}

/** The roster's path as a spec names it, from the spec's own folder; null when it leads out of that. */
function besideSpec(roster: string, output: string | undefined, { cwd }: Host): string | null {
  const folder = output === undefined ? cwd : dirname(resolve(cwd, output))
  const path = resolve(cwd, roster)
  const written = relative(folder, path).split(sep).join('/')
  return isInside(path, folder) && !written.includes('\\') ? written : null
}
