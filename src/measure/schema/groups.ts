import { GROUPS, type MeasurementGroup } from './measurement-groups.ts'
import type { Finish, Measurements } from './measurements.ts'

/** Where each group that is not of the file itself stands in the measurements. */
const PLACES = {
  metadata: 'metadata',
  background: 'background',
  face: 'face',
  head: 'head',
  finish: 'finish',
  focus: 'finish',
  enlargement: 'finish',
  eyes: 'finish',
  signature: 'signature',
} as const satisfies Partial<Record<MeasurementGroup, keyof Measurements>>

type Placed = keyof typeof PLACES

/** What a group is measured from, and so always measured with. */
const FROM: Partial<Record<MeasurementGroup, readonly MeasurementGroup[]>> = {
  background: ['decode'],
  face: ['decode'],
  head: ['decode', 'background', 'face'],
  finish: ['decode', 'face'],
  focus: ['decode', 'face', 'finish'],
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
  if (result.finish) result.finish = withoutUnasked(result.finish, groups)
  return result
}

/** All that either knows of the same content. */
export function joined(one: Measurements, other: Measurements): Measurements {
  const both = { ...one, ...other }
  const finish =
    one.finish && other.finish ? joinedFinish(one.finish, other.finish) : (one.finish ?? other.finish)
  return finish === undefined ? both : { ...both, finish }
}

/** What of the finish belongs to a group of its own is null when that was not asked for. */
function withoutUnasked(finish: Finish, groups: readonly MeasurementGroup[]): Finish {
  return {
    ...finish,
    ...(groups.includes('focus') ? {} : { eyeFocusPx: null, focus: null }),
    ...(groups.includes('enlargement') ? {} : { enlargement: null }),
    ...(groups.includes('eyes') ? {} : { eyePair: null }),
  }
}

function joinedFinish(one: Finish, other: Finish): Finish {
  return {
    ...(other.focus ? other : { ...other, eyeFocusPx: one.eyeFocusPx, focus: one.focus }),
    enlargement: other.enlargement ?? one.enlargement,
    eyePair: other.eyePair ?? one.eyePair,
  }
}
