import type { RgbPicture } from '../rgb-picture.ts'

/** A rectangle of a picture as luma in code values (0 to 255), row by row. */
export interface Patch {
  readonly luma: Float32Array
  readonly width: number
  readonly height: number
}

/**
 * The rectangle around a point, as far as it lies in the picture. Luma is weighed as in IEC 61966-2-1 / ITU-R BT.709
 * but left in code values: blur and spread are told in the domain in which a retoucher works.
 * @param reach half width and half height in pixels
 */
export function patchAround(
  { data, width, height }: RgbPicture,
  center: { readonly x: number; readonly y: number },
  reach: { readonly x: number; readonly y: number },
): Patch {
  const left = Math.max(0, Math.round(center.x - reach.x))
  const top = Math.max(0, Math.round(center.y - reach.y))
  const right = Math.min(width, Math.round(center.x + reach.x))
  const bottom = Math.min(height, Math.round(center.y + reach.y))
  const patchWidth = Math.max(0, right - left)
  const patchHeight = Math.max(0, bottom - top)
  const luma = new Float32Array(patchWidth * patchHeight)
  for (let y = 0, to = 0; y < patchHeight; y++) {
    let from = ((top + y) * width + left) * 3
    for (let x = 0; x < patchWidth; x++, to++, from += 3) {
      luma[to] =
        0.2126 * (data[from] as number) +
        0.7152 * (data[from + 1] as number) +
        0.0722 * (data[from + 2] as number)
    }
  }
  return { luma, width: patchWidth, height: patchHeight }
}

/** Value between pixels, bilinear; NaN outside. Bilinear reading at any phase adds 1/6 px² of variance on average. */
export function lumaAt({ luma, width, height }: Patch, x: number, y: number): number {
  const column = Math.floor(x)
  const row = Math.floor(y)
  if (column < 0 || row < 0 || column >= width - 1 || row >= height - 1) return Number.NaN
  const u = x - column
  const v = y - row
  const i = row * width + column
  const top = (luma[i] as number) * (1 - u) + (luma[i + 1] as number) * u
  const bottom = (luma[i + width] as number) * (1 - u) + (luma[i + width + 1] as number) * u
  return top * (1 - v) + bottom * v
}
