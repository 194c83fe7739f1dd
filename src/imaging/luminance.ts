import { srgbToLinear } from '../color/transfer.ts'
import type { RgbPicture } from './rgb-picture.ts'

const LINEAR = Float64Array.from({ length: 256 }, (_, code) => srgbToLinear(code / 255))

/** Linear light 0..1 of an sRGB code 0..255 (IEC 61966-2-1). */
export function linearLight(code: number): number {
  return LINEAR[code] as number
}

/** Relative luminance 0..1 of one pixel: the weights of IEC 61966-2-1 on linear light. */
export function luminanceAt({ data }: RgbPicture, pixel: number): number {
  const at = 3 * pixel
  return (
    0.2126 * linearLight(data[at] as number) +
    0.7152 * linearLight(data[at + 1] as number) +
    0.0722 * linearLight(data[at + 2] as number)
  )
}
