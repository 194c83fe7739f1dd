import { lumaOf } from '../color/luma.ts'
import { linearLight } from '../color/transfer.ts'
import type { RgbPicture } from './rgb-picture.ts'

/** Relative luminance 0..1 of one pixel. */
export function luminanceAt({ data }: RgbPicture, pixel: number): number {
  const at = 3 * pixel
  return lumaOf(
    linearLight(data[at] as number),
    linearLight(data[at + 1] as number),
    linearLight(data[at + 2] as number),
  )
}

/** Luma 0..255 of one pixel: the weights of luminance on codes. */
export function lumaAt({ data }: RgbPicture, pixel: number): number {
  const at = 3 * pixel
  return lumaOf(data[at] as number, data[at + 1] as number, data[at + 2] as number)
}
