import { lumaAt } from '../../imaging/luminance.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { convolved } from '../../kernels/convolution.ts'
import type { Finished } from './resample.ts'

/** How far the blur reaches, in its own standard deviations. @choice what lies beyond weighs under 0.3 %. */
const REACH = 3

/** A picture as it is measured: 8 bits, three channels. */
export function rgbOf({ codes, channels, widthPx: width, heightPx: height }: Finished): RgbPicture {
  const shift = codes.BYTES_PER_ELEMENT === 1 ? 0 : 8
  const data = Uint8Array.from(
    { length: 3 * width * height },
    (_, n) => (codes[channels === 3 ? n : Math.floor(n / 3)] as number) >> shift,
  )
  return { data, width, height }
}

/** What a Gaussian blur of `sigmaPx` takes away from luma, codes of 8 bits. */
export function detailOf(picture: RgbPicture, sigmaPx: number): Float32Array {
  const { width, height } = picture
  const luma = Float32Array.from({ length: width * height }, (_, n) => lumaAt(picture, n))
  const reach = Math.ceil(REACH * sigmaPx)
  const weights = Float32Array.from({ length: 2 * reach + 1 }, (_, n) =>
    Math.exp(-(((n - reach) / sigmaPx) ** 2) / 2),
  )
  const sum = weights.reduce((total, weight) => total + weight, 0)
  const blurred = convolved(
    luma,
    width,
    height,
    weights.map((weight) => weight / sum),
  )
  return luma.map((value, n) => value - (blurred[n] as number))
}

/** A picture with so many times its detail added to every channel, so that no color shifts: an unsharp mask. */
export function sharpened(picture: Finished, detail: Float32Array, amount: number): Finished {
  const { channels } = picture
  const [top, scale] = picture.codes.BYTES_PER_ELEMENT === 1 ? [255, 1] : [65535, 257]
  const codes = picture.codes.map((code, n) => {
    const more = amount * scale * (detail[Math.floor(n / channels)] as number)
    return Math.min(Math.max(Math.round(code + more), 0), top)
  })
  return { ...picture, codes }
}
