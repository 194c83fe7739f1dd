import { lumaIn } from './luminance.ts'
import type { RgbPicture } from './rgb-picture.ts'

/** A rectangle of a picture as luma in code values (0 to 255), row by row. */
export interface Patch {
  readonly luma: Float32Array
  readonly width: number
  readonly height: number
}

/** With the place of its upper left corner in the picture, in px. */
export interface PlacedPatch extends Patch {
  readonly left: number
  readonly top: number
}

/**
 * The rectangle around a point, as far as it lies in the picture. Luma is taken of
 * code values: blur and spread are told in the domain in which a retoucher works.
 * @param reach half width and half height in pixels
 */
export function patchAround(
  picture: RgbPicture,
  center: { readonly x: number; readonly y: number },
  reach: { readonly x: number; readonly y: number },
): PlacedPatch {
  const left = Math.max(0, Math.round(center.x - reach.x))
  const top = Math.max(0, Math.round(center.y - reach.y))
  const right = Math.min(picture.width, Math.round(center.x + reach.x))
  const bottom = Math.min(picture.height, Math.round(center.y + reach.y))
  const part = { left, top, width: Math.max(0, right - left), height: Math.max(0, bottom - top) }
  return { ...part, luma: lumaIn(picture, part) }
}
