import { lumaOf } from '../color/luma.ts'
import { linearLight } from '../color/transfer.ts'
import type { Rectangle } from '../kernels/memory.ts'
import { type Tables, tonesOf } from '../kernels/tones.ts'
import type { RgbPicture } from './rgb-picture.ts'

/** Luma 0..255 of one pixel: the weights of luminance on codes. */
export function lumaAt({ data }: RgbPicture, pixel: number): number {
  const at = 3 * pixel
  return lumaOf(data[at] as number, data[at + 1] as number, data[at + 2] as number)
}

/** Codes of a channel. @choice definition: 8 bits. */
const CODES = 256

/** A sum of what each pixel's red, green and blue codes count. @param toneOf what three codes, two of them 0, count */
export function tablesOf(toneOf: (red: number, green: number, blue: number) => number): Tables {
  const codes = Array.from({ length: CODES }, (_, code) => code)
  return Float64Array.from([
    ...codes.map((code) => toneOf(code, 0, 0)),
    ...codes.map((code) => toneOf(0, code, 0)),
    ...codes.map((code) => toneOf(0, 0, code)),
  ])
}

/** Of relative luminance 0..1. */
export const LUMINANCE = tablesOf((red, green, blue) =>
  lumaOf(linearLight(red), linearLight(green), linearLight(blue)),
)
const LUMA = tablesOf(lumaOf)

/** What the pixels of a picture, or of a part of it, count by some tables, row by row. */
export function tonesIn(
  picture: RgbPicture,
  tables: Tables,
  part: Rectangle = wholeOf(picture),
): Float32Array {
  return tonesOf(picture, part, tables)
}

function wholeOf({ width, height }: RgbPicture): Rectangle {
  return { left: 0, top: 0, width, height }
}

/** Relative luminance 0..1 of the pixels in a part of a picture, row by row. */
export function luminanceIn(picture: RgbPicture, part: Rectangle): Float32Array {
  return tonesOf(picture, part, LUMINANCE)
}

/** Luma 0..255 of the same. */
export function lumaIn(picture: RgbPicture, part: Rectangle): Float32Array {
  return tonesOf(picture, part, LUMA)
}
