import { luminanceIn } from '../../../imaging/luminance.ts'
import { type Outline, runsInside } from '../../../imaging/polygon.ts'
import type { RgbPicture } from '../../../imaging/rgb-picture.ts'
import { common, without } from '../../../kernels/masks.ts'
import type { EyeRegion } from './eye-region.ts'

/** The part of a picture around one eye: relative luminance 0..1 and masks of 0 and 1, row by row. */
export interface EyePatch {
  /** Its place in the picture, in px. */
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
  readonly luminance: Float32Array
  /** What a lens covers, the open eye left out. */
  readonly around: Uint8Array
  /** The open eye with its lid margins. */
  readonly opening: Uint8Array
  /** The iris as far as the lids leave it free. */
  readonly iris: Uint8Array
  /** The iris without its rim, which may be found a little off. */
  readonly innerIris: Uint8Array
  /** Where the iris was found, in px of the patch. */
  readonly irisPlace: EyeRegion['iris']
  /** Of length 1, from the outer to the inner corner of the eye. */
  readonly axis: { readonly x: number; readonly y: number }
}

/** Radius of the iris without its rim, share of the iris's. @choice it may be found a little off, no source. */
const INNER = 0.8

/** Cuts out one eye; null when its region lies outside the picture. */
export function eyePatch(picture: RgbPicture, { lens, opening, axis, iris }: EyeRegion): EyePatch | null {
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
  const place = { left, top, width, height }
  const patch: EyePatch = {
    ...place,
    luminance: luminanceIn(picture, place),
    around: without(inLens, open),
    opening: common(open, inLens),
    iris: new Uint8Array(size),
    innerIris: new Uint8Array(size),
    irisPlace: { x: iris.x - 0.5 - left, y: iris.y - 0.5 - top, radius: iris.radius },
    axis,
  }
  markIris(patch, iris)
  return patch
}

function markIris(
  { left, top, width, height, ...patch }: EyePatch,
  { x, y, radius }: EyeRegion['iris'],
): void {
  const { opening, iris, innerIris } = patch
  const [right, bottom] = [Math.min(width, x + radius - left), Math.min(height, y + radius - top)]
  for (let row = Math.max(0, Math.floor(y - radius - top)); row < bottom; row++) {
    for (let column = Math.max(0, Math.floor(x - radius - left)); column < right; column++) {
      const i = row * width + column
      if (opening[i] !== 1) continue
      const off = ((column + 0.5 + left - x) ** 2 + (row + 0.5 + top - y) ** 2) / radius ** 2
      if (off < 1) iris[i] = 1
      if (off < INNER ** 2) innerIris[i] = 1
    }
  }
}

function maskOf(outline: Outline, width: number, height: number): Uint8Array {
  const mask = new Uint8Array(width * height)
  const runs = runsInside(outline, width, height)
  for (let k = 0; k < runs.length; k += 2) mask.fill(1, runs[k], runs[k + 1])
  return mask
}
