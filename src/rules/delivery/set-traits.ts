import { SURE } from '../../measure/schema/confidence.ts'
import type { Measurements } from '../../measure/schema/measurements.ts'
import { LEAST_SPREAD } from '../judging/least-spread.ts'
import { SKIN_SPREAD, skinCastOf } from '../judging/skin-locus.ts'
import { textureInFocusPct } from '../judging/texture-in-focus.ts'

/** The parts of Measurements that a set is compared by; numbers that say nothing of who is shown. */
export type SetMeasurements = Pick<Measurements, 'background' | 'face' | 'head' | 'finish'>

const IDS = [
  'headroom',
  'eye-line',
  'head-height',
  'face-height',
  'centering',
  'background-lightness',
  'background-unevenness',
  'background-tint-a',
  'background-tint-b',
  'key-light',
  'skin-tint-a',
  'skin-tint-b',
  'skin-texture',
] as const
/** Something that should be alike in all portraits of a set; its key in a gallery file. */
export type TraitId = (typeof IDS)[number]

/** Traits as numbers; null where one was not measured with confidence. */
export type Traits = Readonly<Record<TraitId, number | null>>

export interface Trait {
  readonly id: TraitId
  /** Smallest spread that counts, in the trait's unit. */
  readonly least: number
  /** The side on which a portrait stands out, where the other is no fault. */
  readonly side?: 'low' | 'high'
  /** Whether a portrait that lacks it is compared by the rest without a word. */
  readonly isOptional?: boolean
}

export const TRAITS: readonly Trait[] = [
  { id: 'headroom', least: LEAST_SPREAD.headroomPct },
  { id: 'eye-line', least: LEAST_SPREAD.eyeLinePct },
  { id: 'head-height', least: LEAST_SPREAD.headHeightPct },
  { id: 'face-height', least: LEAST_SPREAD.faceHeightPct },
  { id: 'centering', least: LEAST_SPREAD.offCenterPct },
  { id: 'background-lightness', least: LEAST_SPREAD.lightnessL },
  { id: 'background-unevenness', least: LEAST_SPREAD.unevennessL, side: 'high' },
  { id: 'background-tint-a', least: LEAST_SPREAD.tint },
  { id: 'background-tint-b', least: LEAST_SPREAD.tint },
  { id: 'key-light', least: LEAST_SPREAD.keyStops },
  { id: 'skin-tint-a', least: SKIN_SPREAD.a },
  { id: 'skin-tint-b', least: SKIN_SPREAD.b },
  { id: 'skin-texture', least: LEAST_SPREAD.textureDoublings, side: 'low', isOptional: true },
]

/** Standard deviations within the middle 95 % of normal values. @source standard normal table. */
const WITHIN_95 = 1.96

/** How far a portrait's traits may be off by how they are measured, one standard deviation; only of traits whose measurement says. */
export function errorsOf({ head, finish }: SetMeasurements): Partial<Record<TraitId, number>> {
  const deviation = (error: number | null | undefined) => (error ?? 0) / WITHIN_95
  const cast = finish?.skinTint.lab ? skinCastOf(finish.skinTint.lab).error : 0
  return {
    headroom: deviation(head?.crownErrorPct),
    'eye-line': deviation(head?.eyeLineErrorPct),
    'head-height': deviation(head?.headHeightErrorPct),
    centering: deviation(head?.offCenterErrorPct),
    'key-light': deviation(finish?.keyRatioErrorStops),
    'skin-tint-a': cast,
    'skin-tint-b': cast,
  }
}

/** Contrast of a texture below which there is none, %. @choice a tenth of what a strong blur leaves, so that the logarithm stays finite. */
const LEAST_TEXTURE_PCT = 0.01

/**
 * What a set is compared by. `face-height` is from eyes to chin; `key-light` is positive when the left cheek is the brighter; `skin-tint` is
 * how far the color of skin lies off that of skin as light, so that it says nothing of anybody's tone; `skin-texture` is the logarithm to
 * the base 2 of the contrast that it would have in focus, in percent.
 */
export function traitsOf({ background, face, head, finish }: SetMeasurements): Traits {
  const sureHead = head && head.confidence >= SURE ? head : null
  const sureFace = head && face && face.confidence >= SURE ? head : null
  const backdrop = background && background.confidence >= SURE ? background : null
  const light = finish && finish.key.confidence >= SURE ? finish : null
  const { headroomPct = null, eyeLinePct = null, headHeightPct = null, chin = null } = sureHead ?? {}
  const texture = finish ? textureInFocusPct(finish) : null
  const { keyRatioStops = null, keySide = null } = light ?? {}
  const skin = finish && finish.skinTint.confidence >= SURE && finish.skinTint.lab
  const cast = skin ? skinCastOf(skin) : null
  return {
    headroom: headroomPct,
    'eye-line': eyeLinePct,
    'head-height': headHeightPct,
    'face-height': chin && eyeLinePct !== null ? 100 * chin.y - eyeLinePct : null,
    centering: sureFace?.offCenterPct ?? null,
    'background-lightness': backdrop?.lightnessL ?? null,
    'background-unevenness': backdrop?.unevennessL ?? null,
    'background-tint-a': backdrop?.lab.a ?? null,
    'background-tint-b': backdrop?.lab.b ?? null,
    'key-light': keyRatioStops !== null && keySide === 'right' ? -keyRatioStops : keyRatioStops,
    'skin-tint-a': cast?.a ?? null,
    'skin-tint-b': cast?.b ?? null,
    'skin-texture': texture === null ? null : Math.log2(Math.max(texture, LEAST_TEXTURE_PCT)),
  }
}
