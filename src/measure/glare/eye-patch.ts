import type { RgbPicture } from '../rgb-picture.ts'
import { linearLight } from '../skin/luminance.ts'
import { type Outline, pixelsInside } from '../skin/polygon.ts'
import type { EyeRegion } from './eye-region.ts'

/** The part of a picture around one eye: linear light 0..1 and masks of 0 and 1, row by row. */
export interface EyePatch {
  /** Its place in the picture, in px. */
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
  readonly red: Float32Array
  readonly green: Float32Array
  readonly blue: Float32Array
  readonly luminance: Float32Array
  /** What a lens covers, the open eye left out. */
  readonly around: Uint8Array
  /** The open eye with its lid margins. */
  readonly opening: Uint8Array
  /** The iris as far as the lids leave it free. */
  readonly iris: Uint8Array
  /** The iris without its rim, which may be found a little off. */
  readonly innerIris: Uint8Array
}

const INNER = 0.8

/** Cuts out one eye; null when its region lies outside the picture. */
export function eyePatch(picture: RgbPicture, { lens, opening, iris }: EyeRegion): EyePatch | null {
  const xs = lens.map(([x]) => x)
  const ys = lens.map(([, y]) => y)
  const left = Math.max(0, Math.floor(Math.min(...xs)))
  const top = Math.max(0, Math.floor(Math.min(...ys)))
  const width = Math.min(picture.width, Math.ceil(Math.max(...xs))) - left
  const height = Math.min(picture.height, Math.ceil(Math.max(...ys))) - top
  if (width <= 0 || height <= 0) return null
  const size = width * height
  const moved = (outline: Outline): Outline => outline.map(([x, y]) => [x - left, y - top])
  const inLens = maskOf(moved(lens), width, height)
  const open = maskOf(moved(opening), width, height)
  const patch: EyePatch = {
    ...{ left, top, width, height },
    red: new Float32Array(size),
    green: new Float32Array(size),
    blue: new Float32Array(size),
    luminance: new Float32Array(size),
    around: inLens.map((value, i) => (open[i] === 1 ? 0 : value)),
    opening: open.map((value, i) => value & (inLens[i] as number)),
    iris: new Uint8Array(size),
    innerIris: new Uint8Array(size),
  }
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const at = 3 * ((y + top) * picture.width + x + left)
      const red = linearLight(picture.data[at] as number)
      const green = linearLight(picture.data[at + 1] as number)
      const blue = linearLight(picture.data[at + 2] as number)
      patch.red[i] = red
      patch.green[i] = green
      patch.blue[i] = blue
      patch.luminance[i] = 0.2126 * red + 0.7152 * green + 0.0722 * blue
      const off = ((x + 0.5 + left - iris.x) ** 2 + (y + 0.5 + top - iris.y) ** 2) / iris.radius ** 2
      if (patch.opening[i] === 1 && off < 1) patch.iris[i] = 1
      if (patch.opening[i] === 1 && off < INNER ** 2) patch.innerIris[i] = 1
    }
  }
  return patch
}

function maskOf(outline: Outline, width: number, height: number): Uint8Array {
  const mask = new Uint8Array(width * height)
  for (const pixel of pixelsInside(outline, width, height)) mask[pixel] = 1
  return mask
}
