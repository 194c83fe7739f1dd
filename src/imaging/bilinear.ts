import { colorsAt } from '../kernels/sampling.ts'
import type { RgbPicture } from './rgb-picture.ts'

/** A place or a step in a picture, px. */
type Vector = readonly [x: number, y: number]

/** A grid of places in a picture: the first, and the steps to the next column and to the next row. Pixels stand at whole numbers. */
export interface Grid {
  readonly first: Vector
  readonly column: Vector
  readonly row: Vector
}

/** The middles of `size` x `size` cells that cover a part of a picture, px from its corner. */
export function gridOver(
  {
    left,
    top,
    width,
    height,
  }: { readonly left: number; readonly top: number; readonly width: number; readonly height: number },
  size: number,
): Grid {
  const [stepX, stepY] = [width / size, height / size]
  return { first: [left + (stepX - 1) / 2, top + (stepY - 1) / 2], column: [stepX, 0], row: [0, stepY] }
}

/** What becomes of a channel's value before a network reads it: value x scale + offset. */
export interface Range {
  readonly scale: number
  readonly offset: number
}

/**
 * Reads a square of `size` x `size` places between pixels by bilinear interpolation: R, G, B of each, row by row.
 * @param outside what a place outside the picture has: the color of the nearest edge, or black
 */
export function bilinear(
  picture: RgbPicture,
  size: number,
  grid: Grid,
  range: Range,
  outside: 'edge' | 'black',
): Float32Array<ArrayBuffer> {
  return colorsAt(picture, { size, ...grid }, range, outside === 'black')
}
