import { SURE } from '../../measure/schema/confidence.ts'
import type { Measurements } from '../../measure/schema/measurements.ts'
import { LEAST_SPREAD } from '../judging/least-spread.ts'

/** The parts of Measurements that a set is compared by; numbers that say nothing of who is shown. */
export type SetMeasurements = Pick<Measurements, 'background' | 'face' | 'head' | 'finish'>

/** Something that should be alike in all portraits of a set. */
export interface Trait {
  /** Its key in a gallery file. */
  readonly id: string
  /** "Headroom", to begin a sentence. */
  readonly noun: string
  readonly unit: string
  /** Null when it was not measured with confidence. */
  readonly value: (measured: SetMeasurements) => number | null
  /** Smallest spread that counts, in the trait's unit. */
  readonly least: number
  /** What to do about a value that is too low, and one that is too high; null where low is good. */
  readonly low: string | null
  readonly high: string
  /** The trait that decides whether this one counts: where that one fits, it is the sitter who differs, not the file. */
  readonly onlyWith?: string
}

const head = (pick: 'headroomPct' | 'eyeLinePct' | 'headHeightPct') => (measured: SetMeasurements) =>
  measured.head && measured.head.confidence >= SURE ? measured.head[pick] : null
const backdrop =
  (pick: (background: NonNullable<SetMeasurements['background']>) => number) => (measured: SetMeasurements) =>
    measured.background && measured.background.confidence >= SURE ? pick(measured.background) : null

export const TRAITS: readonly Trait[] = [
  {
    id: 'headroom',
    noun: 'Headroom',
    unit: ' %',
    value: head('headroomPct'),
    least: LEAST_SPREAD.headroomPct,
    low: 'move the crop up',
    high: 'move the crop down',
    // Big hair takes headroom; the eyes tell where the crop lies.
    onlyWith: 'eye-line',
  },
  {
    id: 'eye-line',
    noun: 'The eye line',
    unit: ' %',
    value: head('eyeLinePct'),
    least: LEAST_SPREAD.eyeLinePct,
    low: 'move the crop up',
    high: 'move the crop down',
  },
  {
    id: 'head-height',
    noun: 'The height of the head',
    unit: ' %',
    value: head('headHeightPct'),
    least: LEAST_SPREAD.headHeightPct,
    low: 'crop tighter',
    high: 'crop wider',
  },
  {
    id: 'centering',
    noun: 'The offset of the face to the right of center',
    unit: ' %',
    value: ({ head: measured, face }) =>
      measured && face && face.confidence >= SURE ? measured.offCenterPct : null,
    least: LEAST_SPREAD.offCenterPct,
    low: 'move the crop to the left',
    high: 'move the crop to the right',
  },
  {
    id: 'background-lightness',
    noun: 'The lightness of the backdrop',
    unit: ' L*',
    value: backdrop(({ lightnessL }) => lightnessL),
    least: LEAST_SPREAD.lightnessL,
    low: 'lighten the backdrop',
    high: 'darken the backdrop',
  },
  {
    id: 'background-unevenness',
    noun: 'The unevenness of the backdrop',
    unit: ' L*',
    value: backdrop(({ unevennessL }) => unevennessL),
    least: LEAST_SPREAD.unevennessL,
    low: null,
    high: 'even the backdrop out',
  },
  {
    id: 'background-tint-a',
    noun: 'The tint of the backdrop from green to red (a*)',
    unit: ' a*',
    value: backdrop(({ lab }) => lab.a),
    least: LEAST_SPREAD.tint,
    low: 'take green out of the backdrop',
    high: 'take red out of the backdrop',
  },
  {
    id: 'background-tint-b',
    noun: 'The tint of the backdrop from blue to yellow (b*)',
    unit: ' b*',
    value: backdrop(({ lab }) => lab.b),
    least: LEAST_SPREAD.tint,
    low: 'take blue out of the backdrop',
    high: 'take yellow out of the backdrop',
  },
  {
    id: 'key-light',
    noun: 'The light from the left relative to the right',
    unit: ' stops',
    value: ({ finish }) => {
      if (!finish || finish.key.confidence < SURE || finish.keyRatioStops === null) return null
      return finish.keySide === 'right' ? -finish.keyRatioStops : finish.keyRatioStops
    },
    least: LEAST_SPREAD.keyStops,
    low: 'lighten the left cheek or darken the right one',
    high: 'darken the left cheek or lighten the right one',
  },
]

/** What of a portrait a set is compared by, by the ids of the traits; null where it was not measured with confidence. */
export function traitsOf(measured: SetMeasurements): Record<string, number | null> {
  return Object.fromEntries(TRAITS.map(({ id, value }) => [id, value(measured)]))
}
