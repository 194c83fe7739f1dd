import { LEAST_LIGHT, linearLight } from '../../../color/transfer.ts'
import { thinned } from '../../../imaging/pixel-indexes.ts'
import { type Outline, pixelsInside } from '../../../imaging/polygon.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'

/** What a patch of skin sends back of the light. */
export interface SkinLight {
  /** In linear light, above 0; told as luminance or as red less blue. */
  readonly light: number
  /** Upper over lower quartile in stops. */
  readonly spread: number
}

/** Reads one pixel's light. */
export type ReadLight = (picture: RgbPicture, pixel: number) => number

/** Fewest pixels of a patch. @choice fewer are left to noise, no source. */
const LEAST_PIXELS = 60

/** Pixels of a patch that are read, evenly. @choice sorting all of a cheek takes 10 ms; of so many, quartiles are good to a hundredth of their spread. */
const MOST_PIXELS = 5000

/** Shares of the sorted values at which the quartiles are. @choice definition. */
const QUARTILES = { lower: 0.25, upper: 0.75 } as const

/**
 * Red less blue in linear light, in which no white is left: what shines white on skin adds the same to both, so that only the light
 * from within the skin counts. Oily, dark skin shines most beside what it sends back from within.
 * @source the dichromatic model, Shafer, Color Research and Application 10(4), 1985
 */
export const diffuseLight: ReadLight = ({ data }, pixel) =>
  linearLight(data[3 * pixel] as number) - linearLight(data[3 * pixel + 2] as number)

/**
 * The mean of what lies between the quartiles of a patch, so that stubble, a rim across it and spots don't count; null when it has too
 * few pixels.
 */
export function lightOf(picture: RgbPicture, outline: Outline, read: ReadLight): SkinLight | null {
  const pixels = pixelsInside(outline, picture.width, picture.height)
  if (pixels.length < LEAST_PIXELS) return null
  const some = thinned(pixels, MOST_PIXELS)
  const sorted = new Float64Array(some.length)
  for (let k = 0; k < some.length; k++) sorted[k] = read(picture, some[k] as number)
  sorted.sort()
  const middle = sorted.subarray(
    Math.floor(sorted.length * QUARTILES.lower),
    Math.ceil(sorted.length * QUARTILES.upper),
  )
  const mean = middle.reduce((sum, value) => sum + value, 0) / middle.length
  const [low, high] = [middle[0] as number, middle[middle.length - 1] as number]
  return {
    light: Math.max(mean, LEAST_LIGHT),
    spread: Math.log2(Math.max(high, LEAST_LIGHT) / Math.max(low, LEAST_LIGHT)),
  }
}
