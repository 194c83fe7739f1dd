import type { LocatedFace } from '../find-faces.ts'
import type { RgbPicture } from '../rgb-picture.ts'
import { linearLight, luminanceAt } from '../skin/luminance.ts'
import { pixelsInside } from '../skin/polygon.ts'
import { skinParts } from '../skin/skin-parts.ts'
import { quantile } from '../surface.ts'

/** The sitter's own skin in this light, in linear light. */
export interface SkinColor {
  /** Green over red and blue over red; the upper quartile, since lids are paler than cheeks. */
  readonly green: number
  readonly blue: number
  /** Median luminance, 0..1. */
  readonly middle: number
  /** Luminance that a tenth of the skin exceeds. */
  readonly bright: number
}

const PALE = 0.75
// Pixels that are enough for a quantile of skin.
const SAMPLES = 5000
const BRIGHT = 0.9
// Half of the least code above black, so that a ratio stays finite.
const BLACK = 0.5 / 255 / 12.92

/** Reads forehead, nose and cheeks; null when none of them lies in the picture. */
export function skinColor(picture: RgbPicture, face: LocatedFace): SkinColor | null {
  const all = [...skinParts(face).values()].flatMap((outline) =>
    pixelsInside(outline, picture.width, picture.height),
  )
  const step = Math.ceil(all.length / SAMPLES)
  const pixels = all.filter((_, i) => i % step === 0)
  if (pixels.length === 0) return null
  const overRed = (channel: 1 | 2) =>
    Float32Array.from(pixels, (pixel) => {
      const red = linearLight(picture.data[3 * pixel] as number)
      return linearLight(picture.data[3 * pixel + channel] as number) / Math.max(red, BLACK)
    })
  const luminance = Float32Array.from(pixels, (pixel) => luminanceAt(picture, pixel))
  return {
    green: quantile(overRed(1), PALE),
    blue: quantile(overRed(2), PALE),
    middle: quantile(luminance, 0.5),
    bright: quantile(luminance, BRIGHT),
  }
}
