import { LEAST_LIGHT, linearLight } from '../../../color/transfer.ts'
import { tablesOf, tonesIn } from '../../../imaging/luminance.ts'
import { pixelsAt } from '../../../imaging/pixels-at.ts'
import { type Outline, runsInside, thinnedRuns } from '../../../imaging/polygon.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import type { Tables } from '../../../kernels/tones.ts'
import { betweenRanks } from '../../../numbers/between-ranks.ts'

/** What a patch of skin sends back of the light. */
export interface SkinLight {
  /** In linear light, above 0; told as luminance or as red less blue. */
  readonly light: number
  /** Upper over lower quartile in stops. */
  readonly spread: number
}

/** Fewest pixels of a patch. @choice fewer are left to noise, no source. */
const LEAST_PIXELS = 60

/** Pixels of a patch that are read, evenly. @choice more take longer; of so many, quartiles are good to a hundredth of their spread. */
const MOST_PIXELS = 5000

/** Shares of the sorted values at which the quartiles are. @choice definition. */
const QUARTILES = { lower: 0.25, upper: 0.75 } as const

/**
 * Red less blue in linear light, in which no white is left: what shines white on skin adds the same to both, so that only the light
 * from within the skin counts. Oily, dark skin shines most beside what it sends back from within.
 * @source the dichromatic model, Shafer, Color Research and Application 10(4), 1985
 */
export const DIFFUSE_LIGHT = tablesOf((red, _, blue) => linearLight(red) - linearLight(blue))

/**
 * The mean of what lies between the quartiles of a patch, so that stubble, a rim across it and spots don't count; null when it has too
 * few pixels.
 * @param light what a pixel counts
 */
export function lightOf(picture: RgbPicture, outline: Outline, light: Tables): SkinLight | null {
  const pixels = thinnedRuns(runsInside(outline, picture.width, picture.height), MOST_PIXELS)
  const count = pixels.length
  if (count < LEAST_PIXELS) return null
  const values = tonesIn(pixelsAt(picture, pixels), light)
  const { low, high, indexes } = betweenRanks(
    values,
    Math.floor(count * QUARTILES.lower),
    Math.ceil(count * QUARTILES.upper) - 1,
  )
  let sum = 0
  for (let k = 0; k < indexes.length; k++) sum += values[indexes[k] as number] as number
  return {
    light: Math.max(sum / indexes.length, LEAST_LIGHT),
    spread: Math.log2(Math.max(high, LEAST_LIGHT) / Math.max(low, LEAST_LIGHT)),
  }
}
