import { LEAST_LIGHT } from '../../../color/transfer.ts'
import { luminanceAt } from '../../../imaging/luminance.ts'
import { type Outline, pixelsInside } from '../../../imaging/polygon.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { doubted } from '../../schema/confidence.ts'
import { EVEN_KEY_STOPS } from '../../schema/finish.ts'
import { KEY_LIGHT_MOST_TURN_DEG } from '../../schema/gates.ts'
import type { Doubt, Face, Finish } from '../../schema/measurements.ts'
import { skinParts } from './skin-parts.ts'

export type KeyLight = Pick<Finish, 'keySide' | 'keyRatioStops' | 'key'>

/** Fewest pixels of a cheek. @choice fewer are left to noise, no source. */
const LEAST_PIXELS = 60

/** Least luminance of a cheek, relative to white: sRGB code 14. @choice codes below it are so far apart that rounding alone is a tenth of a stop (IEC 61966-2-1). */
const LEAST_LUMINANCE = 0.0044

/**
 * Largest spread of a cheek, its upper over its lower quartile, stops.
 * @choice no source: with hair, a hand or a frame over it or a hard shadow across it its quartiles are further apart than skin's.
 */
const MOST_SPREAD_STOPS = 1

/**
 * Which cheek is the brighter one, and by how many stops: log2 of the ratio of the linear luminances, each the mean of
 * what lies between a cheek's quartiles, so that highlights, stubble and a rim across it don't count.
 * @param located the face in pixels of `picture`
 */
export function measureKeyLight(picture: RgbPicture, located: LocatedFace, face: Face): KeyLight {
  const parts = skinParts(located)
  const left = cheekLight(picture, parts.get('left-cheek') ?? [])
  const right = cheekLight(picture, parts.get('right-cheek') ?? [])
  const doubts = new Set<Doubt>(face.doubts)
  if (Math.abs(face.turnDeg ?? 0) > KEY_LIGHT_MOST_TURN_DEG) doubts.add('face-turned')
  if (!left || !right) return unknownKey([...doubts.add('skin-too-small')])
  const stops = Math.log2(left.luminance / right.luminance)
  if (Math.max(left.spread, right.spread) > MOST_SPREAD_STOPS) doubts.add('cheek-covered')
  if (Math.min(left.luminance, right.luminance) < LEAST_LUMINANCE) doubts.add('skin-too-dark')
  const ratio = Math.abs(stops)
  const brighter = stops > 0 ? 'left' : 'right'
  return {
    keySide: ratio < EVEN_KEY_STOPS ? 'none' : brighter,
    keyRatioStops: ratio,
    key: {
      confidence: doubted(face.confidence, doubts),
      doubts: [...doubts],
    },
  }
}

/** What stands in place of the key light when no cheek can be measured. */
export function unknownKey(doubts: Doubt[]): KeyLight {
  return { keySide: null, keyRatioStops: null, key: { confidence: 0, doubts } }
}

interface CheekLight {
  /** Relative, above 0. */
  readonly luminance: number
  /** Upper over lower quartile in stops. */
  readonly spread: number
}

function cheekLight(picture: RgbPicture, outline: Outline): CheekLight | null {
  const pixels = pixelsInside(outline, picture.width, picture.height)
  if (pixels.length < LEAST_PIXELS) return null
  const sorted = new Float64Array(pixels.length)
  for (let k = 0; k < sorted.length; k++) sorted[k] = luminanceAt(picture, pixels[k] as number)
  sorted.sort()
  const from = Math.floor(sorted.length * QUARTILES.lower)
  const to = Math.ceil(sorted.length * QUARTILES.upper)
  const middle = sorted.subarray(from, to)
  let sum = 0
  for (let k = 0; k < middle.length; k++) sum += middle[k] as number
  const mean = sum / middle.length
  const [low, high] = [middle[0] as number, middle[middle.length - 1] as number]
  return {
    luminance: Math.max(mean, LEAST_LIGHT),
    spread: Math.log2(Math.max(high, LEAST_LIGHT) / Math.max(low, LEAST_LIGHT)),
  }
}

/** Shares of the sorted values at which the quartiles are. @choice definition. */
const QUARTILES = { lower: 0.25, upper: 0.75 } as const
