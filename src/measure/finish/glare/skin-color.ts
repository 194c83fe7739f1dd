import { LEAST_LIGHT, LINEAR_LIGHT } from '../../../color/transfer.ts'
import { LUMINANCE, tonesIn } from '../../../imaging/luminance.ts'
import { pixelsAt } from '../../../imaging/pixels-at.ts'
import { runsInside, sampleOf } from '../../../imaging/polygon.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { overRed } from '../../../kernels/tones.ts'
import { quantile } from '../../../numbers/quantile.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { skinParts } from '../skin/skin-parts.ts'

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

/** Quantile of the skin's colors that stands for pale skin. @choice the upper quartile, since lids are paler than cheeks; no source. */
const PALE = 0.75

/** Pixels that are enough for a quantile of skin. @choice a quantile of so many is good to a percent of the spread. */
const SAMPLES = 5000

/** Quantile of the skin's luminance that stands for bright skin. @choice a tenth may be shine, no source. */
const BRIGHT = 0.9

/** Reads forehead, nose and cheeks; null when none of them lies in the picture. */
export function skinColor(picture: RgbPicture, face: LocatedFace): SkinColor | null {
  const { width, height } = picture
  const runs = [...skinParts(face).values()].flatMap((outline) => runsInside(outline, width, height))
  const pixels = sampleOf(runs, SAMPLES)
  if (pixels.length === 0) return null
  const skin = pixelsAt(picture, pixels)
  const luminance = tonesIn(skin, LUMINANCE)
  return {
    green: quantile(overRed(skin, 1, LINEAR_LIGHT, LEAST_LIGHT), PALE),
    blue: quantile(overRed(skin, 2, LINEAR_LIGHT, LEAST_LIGHT), PALE),
    middle: quantile(luminance, 0.5),
    bright: quantile(luminance, BRIGHT),
  }
}
