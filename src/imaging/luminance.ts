import { lumaOf } from '../color/luma.ts'
import { linearLight } from '../color/transfer.ts'
import type { Rectangle } from '../kernels/memory.ts'
import { type Tables, tonesOf } from '../kernels/tones.ts'
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

/** Codes of a channel. @choice definition: 8 bits. */
const CODES = 256

/** What each code of red, green and blue adds. @param toneOf tone of a code */
function tablesOf(toneOf: (code: number) => number): Tables {
  const tones = Array.from({ length: CODES }, (_, code) => toneOf(code))
  return Float64Array.from([
    ...tones.map((tone) => lumaOf(tone, 0, 0)),
    ...tones.map((tone) => lumaOf(0, tone, 0)),
    ...tones.map((tone) => lumaOf(0, 0, tone)),
  ])
}

const LUMINANCE = tablesOf(linearLight)
const LUMA = tablesOf((code) => code)

/** Relative luminance 0..1 of the pixels in a part of a picture, row by row. */
export function luminanceIn(picture: RgbPicture, part: Rectangle): Float32Array {
  return tonesOf(picture, part, LUMINANCE)
}

/** Luma 0..255 of the same. */
export function lumaIn(picture: RgbPicture, part: Rectangle): Float32Array {
  return tonesOf(picture, part, LUMA)
}
