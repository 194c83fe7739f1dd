import { GROUPS, type MeasurementGroup } from './measurement-groups.ts'
import type { Measurements } from './measurements.ts'

/** Where each group that is not of the file itself stands in the measurements. */
const PLACES = {
  metadata: 'metadata',
  background: 'background',
  face: 'face',
  head: 'head',
  finish: 'finish',
  signature: 'signature',
} as const satisfies Partial<Record<MeasurementGroup, keyof Measurements>>

type Placed = keyof typeof PLACES

/**
 * What belongs to a group of its own inside the place of another, and how it reads where nobody asked for it. What is part of a part
 * comes before it.
 */
const PARTS: readonly (readonly [MeasurementGroup, readonly string[], unknown])[] = [
  ['cutout', ['background', 'fringe'], null],
  ['cutout', ['background', 'holes'], null],
  ['halo', ['finish', 'focus', 'haloPct'], null],
  ['focus', ['finish', 'focus'], null],
  ['focus', ['finish', 'eyeFocusPx'], null],
  ['texture', ['finish', 'skinTexturePct'], null],
  ['texture', ['finish', 'texture'], { confidence: 0, doubts: [] }],
  ['enlargement', ['finish', 'enlargement'], null],
  ['eyes', ['finish', 'eyePair'], null],
]

/** What a group is measured from, and so always measured with. */
const FROM: Partial<Record<MeasurementGroup, readonly MeasurementGroup[]>> = {
  background: ['decode'],
  face: ['decode'],
  head: ['decode', 'background', 'face'],
  finish: ['decode', 'face'],
  cutout: ['decode', 'background', 'face'],
  focus: ['decode', 'face', 'finish'],
  halo: ['decode', 'face', 'finish', 'focus'],
  texture: ['decode', 'face', 'finish'],
  enlargement: ['decode', 'face', 'finish'],
  eyes: ['decode', 'face', 'finish'],
  signature: ['decode', 'face'],
}

/** The groups asked for and all that they are measured from, in the order of the measurements. */
export function completed(groups: readonly MeasurementGroup[]): MeasurementGroup[] {
  const all = new Set<MeasurementGroup>([
    'file',
    ...groups.flatMap((group) => [group, ...(FROM[group] ?? [])]),
  ])
  return GROUPS.filter((group) => all.has(group))
}

/** Whether these groups need the picture decoded. */
export function isDecoded(groups: readonly MeasurementGroup[]): boolean {
  return groups.includes('decode')
}

function isPlaced(group: MeasurementGroup): group is Placed {
  return Object.hasOwn(PLACES, group)
}

/** Only what these groups hold of the measurements of more. */
export function restricted(measurements: Measurements, groups: readonly MeasurementGroup[]): Measurements {
  const { metadata, background, face, head, finish, signature, ...file } = measurements
  const parts = { metadata, background, face, head, finish, signature }
  const result: Measurements = { ...file, sha256: groups.includes('checksum') ? file.sha256 : null }
  for (const group of groups) {
    if (isPlaced(group)) Object.assign(result, { [PLACES[group]]: parts[PLACES[group]] ?? null })
  }
  return PARTS.reduce(
    (whole, [group, path, blank]) => (groups.includes(group) ? whole : replaced(whole, path, blank)),
    result,
  )
}

/** Measurements of the same content, with the groups that they hold. */
export interface Held {
  readonly groups: readonly MeasurementGroup[]
  readonly measurements: Measurements
}

/** All that either knows of the same content. */
export function joined(one: Held, other: Held): Held {
  const groups = [...new Set([...one.groups, ...other.groups])]
  const both = { ...one.measurements, ...other.measurements }
  // A part goes before what it is part of.
  const measurements = PARTS.toReversed().reduce((whole, [group, path]) => {
    if (!one.groups.includes(group) || other.groups.includes(group)) return whole
    const known = path.reduce<unknown>(
      (value, key) => (isRecord(value) ? value[key] : undefined),
      one.measurements,
    )
    return known === undefined ? whole : replaced(whole, path, known)
  }, both)
  return { groups, measurements }
}

/** A copy with another value at the end of a path, as far as the path leads to one. */
function replaced<T>(whole: T, [key = '', ...rest]: readonly string[], by: unknown): T {
  if (!isRecord(whole) || !Object.hasOwn(whole, key)) return whole
  return { ...whole, [key]: rest.length === 0 ? by : replaced(whole[key], rest, by) }
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null
}
