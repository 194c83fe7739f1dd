import { valuesIn } from '../../../kernels/masks.ts'
import { quantile } from '../../../numbers/quantile.ts'
import type { EyePatch } from './eye-patch.ts'
import type { SkinColor } from './skin-color.ts'

/** How bright one eye is where nothing is reflected: relative luminances. */
export interface EyeLevels {
  /** The brightest tenth of the opening beside the iris begins here: the white of the eye in full light. */
  readonly white: number
  /** The upper quartile there: the white of the eye as it mostly is. */
  readonly usualWhite: number
  /** Median around the eye. */
  readonly skin: number
}

/** Quantile that stands for the white of the eye in full light. @choice a tenth may be a catchlight beside the iris */
const FULL_LIGHT = 0.9
/** Quantile that stands for most of the white. @choice lids and lashes in the opening are darker */
const MOST_OF_IT = 0.75
/**
 * Fewest pixels of skin around an eye that tell how bright it is.
 * @choice fewer are a rim of the reflection; then skin elsewhere does
 */
const LEAST_SKIN = 21

/** Least luminance of a reflection over the eye. @tuned on drawn sitters of all ten Monk tones and 25 photographs */
export const LEAST_REFLECTION = 0.4
/** How much brighter than the white of the eye a light is. @tuned on drawn sitters of all ten Monk tones and 25 photographs */
export const OVER_WHITE = 1.05
/**
 * How bright beside the usual white a veil of light over the iris is at least.
 * @tuned on drawn sitters of all ten Monk tones and 25 photographs
 */
export const LIKE_WHITE = 0.9

/** How bright the white of one eye is. */
export type White = Pick<EyeLevels, 'white' | 'usualWhite'>

/** Read in the opening beside the iris. */
export function whiteOf({ luminance, opening, iris }: EyePatch): White {
  const white = valuesIn(luminance, opening, iris)
  return { white: quantile(white, FULL_LIGHT), usualWhite: quantile(white, MOST_OF_IT) }
}

/** Luminance of the skin around an eye. @param around mask of what is reflected there */
export function skinAround(patch: EyePatch, around: Uint8Array, skin: SkinColor): number {
  const bare = valuesIn(patch.luminance, patch.around, around)
  return bare.length >= LEAST_SKIN ? quantile(bare, 0.5) : skin.middle
}
