import { type Static, Type } from '@sinclair/typebox'
import { median } from '../numbers/quantile.ts'
import type { GalleryPortrait } from '../rules/contract/delivery-rule.ts'
import { lastingShift, type Reference } from './change-point.ts'
import { DRIFT_TRAITS, type DriftTrait, MEANINGS } from './drift-traits.ts'

/** One frame of a session. */
export interface SessionFrame {
  readonly file: string
  /** When it was made, ms since 1970 (UTC). */
  readonly at: number
  /** Who sits, by any label; null when nobody said. Traits in which sitters differ are compared from sitter to sitter only. */
  readonly sitter: string | null
  readonly traits: Readonly<Record<DriftTrait, number | null>>
}

/** Levels to hold a session to. */
export type DriftReference = Partial<Record<DriftTrait, Reference>>

const KINDS = [
  'backdrop-lightness',
  'backdrop-tint',
  'backdrop-unevenness',
  'key-ratio',
  'head-size',
  'eye-line',
] as const

/** A lasting change in a session. Facts; the sentence is made in report/frames. */
export const Drift = Type.Object(
  {
    trait: Type.Unsafe<(typeof KINDS)[number]>(Type.Union(KINDS.map((kind) => Type.Literal(kind)))),
    since: Type.Number({ description: 'When the first frame of it was made, ms since 1970 (UTC).' }),
    file: Type.String({ description: 'That frame.' }),
    frames: Type.Integer({ minimum: 1, description: 'How many frames have shown it since.' }),
    shift: Type.Number({
      description:
        'By how much: stops (lightness, key ratio), ΔE*ab (tint), L* (unevenness), percent (head size), percent of the frame height (eye line).',
    }),
    hueDeg: Type.Optional(Type.Number({ description: 'Where to a tint went, CIE hue angle.' })),
    side: Type.Optional(
      Type.Union([Type.Literal('left'), Type.Literal('right')], {
        description: 'The brighter cheek in the frame, for a key ratio.',
      }),
    ),
  },
  { additionalProperties: false },
)
export type Drift = Static<typeof Drift>

/** The levels of frames that are as they should be: the first that was approved, or several. */
export function referenceOf(frames: readonly Pick<SessionFrame, 'traits'>[]): DriftReference {
  return levels((trait) => frames.flatMap(({ traits }) => traits[trait] ?? []))
}

/** The levels of published portraits, but for those of head and eyes, which their crops decide. */
export function galleryReference(portraits: readonly GalleryPortrait[]): DriftReference {
  return levels((trait) => {
    const { from, inUnit, isOfGalleries } = MEANINGS[trait]
    if (!isOfGalleries) return []
    return portraits.flatMap(({ traits }) => {
      const value = traits[from] ?? null
      return value === null ? [] : [inUnit(value)]
    })
  })
}

function levels(valuesIn: (trait: DriftTrait) => readonly number[]): DriftReference {
  const known = DRIFT_TRAITS.map((trait) => [trait, valuesIn(trait)] as const)
  return Object.fromEntries(
    known.flatMap(([trait, values]) =>
      values.length > 0 ? [[trait, { level: median(values), of: values.length }]] : [],
    ),
  )
}

/**
 * What has changed for good, as far as three frames or more show it, or three sitters where sitters differ: against the reference, and
 * else against how the session began. What has come back to its level is told no more.
 * @param frames in the order in which they were made
 */
export function driftOf(frames: readonly SessionFrame[], reference: DriftReference = {}): Drift[] {
  const told = (trait: DriftTrait) => shiftIn(frames, trait, reference[trait] ?? null)
  const plain = (['backdrop-lightness', 'backdrop-unevenness', 'head-size', 'eye-line'] as const).flatMap(
    (trait): Drift[] => {
      const shift = told(trait)
      return shift ? [{ trait, ...factsOf(shift), shift: shift.by }] : []
    },
  )
  return [
    ...plain,
    ...tintDrift(told('backdrop-tint-a'), told('backdrop-tint-b')),
    ...keyDrift(told('key-ratio')),
  ]
}

interface Shift {
  readonly first: SessionFrame
  readonly frames: number
  readonly by: number
  readonly level: number
}

function factsOf({ first, frames }: Shift): Pick<Drift, 'since' | 'file' | 'frames'> {
  return { since: first.at, file: first.file, frames }
}

function tintDrift(a: Shift | null, b: Shift | null): Drift[] {
  const [lead] = [a, b].flatMap((one) => one ?? []).toSorted((one, other) => one.first.at - other.first.at)
  if (!lead) return []
  const by = { a: a?.by ?? 0, b: b?.by ?? 0 }
  const hueDeg = ((Math.atan2(by.b, by.a) * 180) / Math.PI + 360) % 360
  return [{ trait: 'backdrop-tint', ...factsOf(lead), shift: Math.hypot(by.a, by.b), hueDeg }]
}

/** A key light that got stronger or weaker, positive for stronger: by the side of the brighter cheek. */
function keyDrift(shift: Shift | null): Drift[] {
  if (!shift) return []
  const { by, level } = shift
  const before = level - by
  const side = level >= 0 ? 'left' : 'right'
  return [{ trait: 'key-ratio', ...factsOf(shift), shift: Math.abs(level) - Math.abs(before), side }]
}

/** The lasting shift of one trait; null when there is none. */
function shiftIn(frames: readonly SessionFrame[], trait: DriftTrait, given: Reference | null): Shift | null {
  const meaning = MEANINGS[trait]
  const series = meaning.isSitters ? sittersIn(frames, trait) : framesIn(frames, trait)
  const shift = lastingShift(
    series.map(({ value }) => value),
    meaning,
    given,
  )
  const first = shift && series[shift.from]?.frame
  if (!first) return null
  const since = series.slice(shift.from).reduce((sum, { count }) => sum + count, 0)
  return { first, frames: since, by: shift.by, level: shift.level }
}

interface Point {
  readonly frame: SessionFrame
  readonly value: number
  readonly count: number
}

function framesIn(frames: readonly SessionFrame[], trait: DriftTrait): Point[] {
  return frames.flatMap((frame) => {
    const value = frame.traits[trait]
    return value === null ? [] : [{ frame, value, count: 1 }]
  })
}

/** One value a sitter: the median of their frames. */
function sittersIn(frames: readonly SessionFrame[], trait: DriftTrait): Point[] {
  const bySitter = new Map<string, Point[]>()
  for (const point of framesIn(frames, trait)) {
    const { sitter } = point.frame
    if (sitter === null) continue
    const others = bySitter.get(sitter)
    if (others) others.push(point)
    else bySitter.set(sitter, [point])
  }
  return [...bySitter.values()].flatMap((points) => {
    const [first] = points
    return first
      ? [{ frame: first.frame, value: median(points.map(({ value }) => value)), count: points.length }]
      : []
  })
}
