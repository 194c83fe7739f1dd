import { LUMINANCE } from '../../../imaging/luminance.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { Tables } from '../../../kernels/tones.ts'
import { median } from '../../../numbers/quantile.ts'
import { robust } from '../../../numbers/robust.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { doubted } from '../../schema/confidence.ts'
import { EVEN_KEY_STOPS } from '../../schema/finish.ts'
import { KEY_LIGHT_MOST_TURN_DEG } from '../../schema/gates.ts'
import type { Doubt, Face, Finish } from '../../schema/measurements.ts'
import { DIFFUSE_LIGHT, lightOf, type SkinLight } from './diffuse-light.ts'
import { type MirroredPair, mirroredPairs } from './mirrored-pairs.ts'

export type KeyLight = Pick<Finish, 'keySide' | 'keyRatioStops' | 'keyRatioErrorStops' | 'key'>

/** Least luminance of a cheek, relative to white: sRGB code 14. @choice codes below it are so far apart that rounding alone is a tenth of a stop (IEC 61966-2-1). */
const LEAST_LUMINANCE = 0.0044

/**
 * Largest spread of a patch, its upper over its lower quartile, stops.
 * @tuned on 51 portraits in one light: bare cheeks up to 1.5 on the darkest skin, whose folds go deep. With hair, a hand or a frame
 *   over it or a hard shadow across it its quartiles are further apart.
 */
const MOST_SPREAD_STOPS = 2

/**
 * Least share of the luminance that red less blue must be; below it, as in a picture in gray, luminance is read instead.
 * @choice no source: skin in white light has 0.3 and more, and two thirds of that are left to rounding and to casts.
 */
const LEAST_CHROMA = 0.2

/**
 * Error of the ratio where all parts of the face agree, 95 %, stops.
 * @tuned on 51 portraits in one light, whose ratios scatter by 0.06 to 0.09 stop; with what the parts disagree by it holds 96 of 100.
 */
const LEAST_ERROR_STOPS = 0.14

/**
 * On which side the face is brighter, and by how many stops: log2 of the ratio of linear light between mirrored parts, the median of
 * cheeks, forehead and chin. White shine on the skin is left out.
 * @param located the face in pixels of `picture`
 */
export function measureKeyLight(picture: RgbPicture, located: LocatedFace, face: Face): KeyLight {
  const [cheeks, ...others] = mirroredPairs(located)
  const doubts = new Set<Doubt>(face.doubts)
  if (Math.abs(face.turnDeg ?? 0) > KEY_LIGHT_MOST_TURN_DEG) doubts.add('face-turned')
  const luminance = ratioOf(picture, cheeks, LUMINANCE)
  if (!luminance) return unknownKey([...doubts.add('skin-too-small')])
  const diffuse = ratioOf(picture, cheeks, DIFFUSE_LIGHT)
  const hasColor = diffuse !== null && diffuse.darker > LEAST_CHROMA * luminance.darker
  const read = hasColor ? DIFFUSE_LIGHT : LUMINANCE
  const cheek = hasColor ? diffuse : luminance
  if (cheek.spread > MOST_SPREAD_STOPS) doubts.add('cheek-covered')
  if (luminance.darker < LEAST_LUMINANCE) doubts.add('skin-too-dark')
  const rest = others.flatMap((pair) => ratioOf(picture, pair, read) ?? [])
  const bare = rest.filter(({ spread }) => spread <= MOST_SPREAD_STOPS)
  const all = [cheek, ...bare].map(({ stops }) => stops)
  const stops = median(all)
  const ratio = Math.abs(stops)
  const brighter = stops > 0 ? 'left' : 'right'
  return {
    keySide: ratio < EVEN_KEY_STOPS ? 'none' : brighter,
    keyRatioStops: ratio,
    keyRatioErrorStops: Math.hypot(LEAST_ERROR_STOPS, robust(all).spread),
    key: { confidence: doubted(face.confidence, doubts), doubts: [...doubts] },
  }
}

/** What stands in place of the key light when no cheek can be measured. */
export function unknownKey(doubts: Doubt[]): KeyLight {
  return { keySide: null, keyRatioStops: null, keyRatioErrorStops: null, key: { confidence: 0, doubts } }
}

interface PairRatio {
  /** Of the cheeks, as this pair tells it; positive when the left is the brighter. */
  readonly stops: number
  /** Light of the darker side. */
  readonly darker: number
  /** Of the side that is less even, stops. */
  readonly spread: number
}

function ratioOf(picture: RgbPicture, { left, right, share }: MirroredPair, light: Tables): PairRatio | null {
  const sides = [lightOf(picture, left, light), lightOf(picture, right, light)]
  const [one, other] = sides as [SkinLight | null, SkinLight | null]
  if (!one || !other) return null
  return {
    stops: Math.log2(one.light / other.light) / share,
    darker: Math.min(one.light, other.light),
    spread: Math.max(one.spread, other.spread),
  }
}
