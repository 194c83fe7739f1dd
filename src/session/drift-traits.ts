import type { Measurements } from '../measure/schema/measurements.ts'
import { type TraitId, traitsOf } from '../rules/delivery/set-traits.ts'
import { stopsBetween } from '../rules/judging/stops.ts'
import type { Expected } from './change-point.ts'

export const DRIFT_TRAITS = [
  'backdrop-lightness',
  'backdrop-tint-a',
  'backdrop-tint-b',
  'backdrop-unevenness',
  'key-ratio',
  'head-size',
  'eye-line',
] as const
/** Something that should stay as it is through a session. */
export type DriftTrait = (typeof DRIFT_TRAITS)[number]

export interface TraitMeaning extends Expected {
  /** The trait of a set, or of a gallery, that it is made from. */
  readonly from: TraitId
  readonly inUnit: (traitValue: number) => number
  /** Whether sitters differ in it, so that each of them counts once. */
  readonly isSitters: boolean
  /** Whether delivered portraits, which are cropped, tell it of frames. */
  readonly isOfGalleries: boolean
}

const same = (value: number) => value

/**
 * Lightness in stops below white; tint in CIELAB a* and b*; unevenness in L*; the key ratio in stops, positive when the left cheek is the
 * brighter; head size in percent, as a logarithm; the eye line in percent of the frame's height.
 * @choice least shifts: what shows side by side; noise: common practice, no source, but for the key ratio (0.04 to 0.09 stop, see key-side) and the
 * head, whose height scatters by some 5 % from person to person (from memory)
 */
export const MEANINGS: Readonly<Record<DriftTrait, TraitMeaning>> = {
  'backdrop-lightness': {
    ...{ from: 'background-lightness', isSitters: false, isOfGalleries: true },
    inUnit: (lightness) => stopsBetween(100, lightness),
    ...{ least: 0.2, noise: 0.05 },
  },
  'backdrop-tint-a': {
    ...{ from: 'background-tint-a', isSitters: false, isOfGalleries: true },
    ...{ inUnit: same, least: 1.2, noise: 0.3 },
  },
  'backdrop-tint-b': {
    ...{ from: 'background-tint-b', isSitters: false, isOfGalleries: true },
    ...{ inUnit: same, least: 1.2, noise: 0.3 },
  },
  'backdrop-unevenness': {
    ...{ from: 'background-unevenness', isSitters: false, isOfGalleries: true },
    ...{ inUnit: same, least: 1.5, noise: 0.4 },
  },
  'key-ratio': {
    ...{ from: 'key-light', isSitters: true, isOfGalleries: true },
    ...{ inUnit: same, least: 0.3, noise: 0.08 },
  },
  'head-size': {
    ...{ from: 'head-height', isSitters: true, isOfGalleries: false },
    inUnit: (pct) => 100 * Math.log(pct),
    ...{ least: 12, noise: 5 },
  },
  'eye-line': {
    ...{ from: 'eye-line', isSitters: true, isOfGalleries: false },
    ...{ inUnit: same, least: 4, noise: 1.5 },
  },
}

/** The traits of a frame; null where one was not measured with confidence. */
export function driftTraitsOf(measured: Measurements): Readonly<Record<DriftTrait, number | null>> {
  const traits = traitsOf(measured)
  const value = (trait: DriftTrait) => {
    const { from, inUnit } = MEANINGS[trait]
    const found = traits[from]
    return found === null || (trait === 'head-size' && found <= 0) ? null : inUnit(found)
  }
  return {
    'backdrop-lightness': value('backdrop-lightness'),
    'backdrop-tint-a': value('backdrop-tint-a'),
    'backdrop-tint-b': value('backdrop-tint-b'),
    'backdrop-unevenness': value('backdrop-unevenness'),
    'key-ratio': value('key-ratio'),
    'head-size': value('head-size'),
    'eye-line': value('eye-line'),
  }
}
