import { SCHEMA_FILE } from '../brand-spec/starter.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import { plainRatio } from '../numbers/ratio.ts'
import { fileLines } from './file-lines.ts'
import { type InferredNaming, inferNaming } from './infer-naming.ts'
import type { KnownNames } from './name-slots.ts'
import { EYE_FOCUS, FRAMING, type Line, PICTURE, proposeNumber, proposeSame } from './proposals.ts'
import { groupBySize, type SizeGroup } from './sizes.ts'
import { proposeUsual, USUAL, USUAL_OF_LARGEST } from './usual.ts'

export interface DerivedSpec {
  /** A commented brand spec. */
  readonly text: string
  readonly naming: InferredNaming | null
  /** Files that stand off the others in something, with the rules' names. */
  readonly outliers: ReadonlyMap<string, readonly string[]>
}

/** What lies in the spec's folder. */
export interface BesideSpec {
  /** Whether the schema for editors does. */
  readonly schema: boolean
  /** Path of the roster that the names are known from; null without one, or when it leads out of the folder. */
  readonly roster: string | null
}

/** Writes the spec that approved portraits seem to have been made to. Only files without a fault are to be given. */
export function deriveSpec(
  files: readonly Measurements[],
  brand: string,
  known: KnownNames,
  beside: BesideSpec = { schema: false, roster: null },
): DerivedSpec {
  const { groups, odd } = groupBySize(files)
  const several = groups.length > 1
  const nameOf = new Map(
    groups.flatMap((group) => group.files.map(({ file }) => [file, group.name] as const)),
  )
  const naming = inferNaming(
    files.map(({ file }) => file),
    (path) => (several ? (nameOf.get(path) ?? null) : null),
    known,
  )
  const outliers = new Map<string, string[]>()
  const written = (line: Line, indent = ''): string => {
    const rule = line.setting?.split(':')[0] ?? ''
    for (const file of line.outliers) outliers.set(file, [...(outliers.get(file) ?? []), rule])
    return line.setting === null ? `${indent}# ${line.note}` : `${indent}${line.setting} # ${line.note}`
  }
  for (const { file } of odd) outliers.set(file, ['pixel-size'])
  const [only] = groups
  const largest = [...groups].sort((a, b) => b.widthPx * b.heightPx - a.widthPx * a.heightPx)[0]
  const framing = (group: SizeGroup, indent: string) => [
    `${indent}pixel-size: { width: ${group.widthPx}, height: ${group.heightPx} } # ${group.files.length} of ${files.length}`,
    ...ratio(group).map((line) => indent + line),
    written(sameResolution(group.files), indent),
    ...FRAMING.map((rule) => written(proposeNumber(rule, group.files), indent)),
    // On the largest files, which show it.
    ...(group === largest
      ? [
          proposeNumber(EYE_FOCUS, group.files),
          ...USUAL_OF_LARGEST.map((rule) => proposeUsual(rule, group.files)),
        ].map((line) => written(line, indent))
      : []),
  ]
  const lines = [
    ...(beside.schema ? [`# yaml-language-server: $schema=./${SCHEMA_FILE}`, '#'] : []),
    `# Proposed from ${files.length} approved portraits. Read it through: the ranges are what was found, plus a margin,`,
    '# not what was agreed on. The notes give the basis of each line.',
    '',
    `brand: ${JSON.stringify(brand)}`,
    'version: 1',
    '',
    ...namingLines(naming),
    '',
    ...(several
      ? ['deliverables:', ...groups.flatMap((group) => [`  ${key(group.name)}:`, ...framing(group, '    ')])]
      : only
        ? framing(only, '')
        : []),
    ...(odd.length > 0 ? [`# Of another size, and left out: ${odd.length} of ${files.length}`] : []),
    '',
    ...fileLines(files).map((line) => written(line)),
    '',
    ...PICTURE.map((rule) => written(proposeNumber(rule, files))),
    ...USUAL.map((rule) => written(proposeUsual(rule, files))),
    '',
    '# What hurts when it is published; hardly anyone would allow it',
    ...HURTING,
    '',
    '# Left out, since approved pictures do not show what was agreed on: file-size, required metadata and light.',
    '# Add them by hand: portrait-gate explain',
    '',
    '# Over the whole delivery',
    ...rosterLines(beside.roster, naming, known),
    'duplicate-picture: none',
    ...(several ? ['same-frame: all', 'variants: all'] : []),
  ]
  return { text: `${lines.join('\n')}\n`, naming, outliers }
}

function namingLines(naming: InferredNaming | null): string[] {
  if (!naming) return ['# naming was left out: the names follow no single pattern']
  const fields = Object.entries(naming.fields).map(
    ([field, constraint]) => `    ${field}: ${'digits' in constraint ? digits(constraint.digits) : '{}'}`,
  )
  return [
    'naming:',
    ...(naming.orderIsAGuess
      ? ['  # Which of the two names is the family name is a guess; --roster FILE settles it.']
      : []),
    `  pattern: ${JSON.stringify(naming.pattern)}`,
    ...(fields.length > 0 ? ['  fields:', ...fields] : []),
    ...(naming.others.length > 0
      ? [`  # ${naming.others.length} ${naming.others.length === 1 ? 'name has' : 'names have'} another form`]
      : []),
  ]
}

/** A roster needs a column that the names can be compared with. */
function rosterLines(roster: string | null, naming: InferredNaming | null, known: KnownNames): string[] {
  if (known.size === 0) return []
  if (![...known.keys()].some((field) => naming?.pattern.includes(`{${field}}`)))
    return ['# roster was left out: the names have no part that its columns hold']
  if (roster === null)
    return [
      '# roster was left out: the list lies outside the folder of this file. Put it there, or name it with --roster FILE.',
    ]
  return [`roster: ${JSON.stringify(roster)}`]
}

function digits(count: number | { min: number; max: number }): string {
  return typeof count === 'number'
    ? `{ digits: ${count} }`
    : `{ digits: { min: ${count.min}, max: ${count.max} } }`
}

/** A key of YAML: plain where nothing in it could be read as something else. */
function key(name: string): string {
  return /^[a-z][a-z-]*$/i.test(name) && !/^(?:y|n|yes|no|on|off|true|false|null)$/i.test(name)
    ? name
    : JSON.stringify(name)
}

function ratio({ widthPx, heightPx }: SizeGroup): string[] {
  const plain = plainRatio(widthPx, heightPx)
  return plain === null ? [] : [`aspect-ratio: "${plain}"`]
}

/**
 * The resolution that programs write when nobody chose one, px per inch.
 * @source Exif 2.32 (CIPA DC-008-2019), tag XResolution: 72 is recorded when the resolution is not known
 */
const UNKNOWN_PPI = 72

function sameResolution(files: readonly Measurements[]): Line {
  const line = proposeSame(
    'resolution',
    files,
    ({ ppi }) => (ppi === null ? null : Math.round(ppi)),
    (ppi) => `{ ppi: ${ppi} }`,
  )
  if (line.setting !== `resolution: { ppi: ${UNKNOWN_PPI} }`) return line
  const note = `resolution was left out: ${UNKNOWN_PPI} ppi is what programs write when nobody has chosen one`
  return { setting: null, note, outliers: [] }
}

/** Settings that hold whatever was agreed on. @choice common practice, no source */
const HURTING = [
  'metadata-forbidden: [location, camera-serial, lens-serial]',
  'stale-preview: true',
  'lens-glare: { max: 3 }',
]
