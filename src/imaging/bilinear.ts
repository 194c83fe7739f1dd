import { interpolate, within } from './interpolate.ts'
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
  { data, width, height }: RgbPicture,
  size: number,
  { first, column, row }: Grid,
  { scale, offset }: Range,
  outside: 'edge' | 'black',
): Float32Array<ArrayBuffer> {
  const [lastX, lastY] = [width - 1, height - 1]
  const out = new Float32Array(3 * size * size).fill(offset)
  for (let down = 0, to = 0; down < size; down++) {
    for (let across = 0; across < size; across++, to += 3) {
      const placeX = first[0] + across * column[0] + down * row[0]
      const placeY = first[1] + across * column[1] + down * row[1]
      const x = within(placeX, lastX)
      const y = within(placeY, lastY)
      if (outside === 'black' && (x !== placeX || y !== placeY)) continue
      const [left, top] = [Math.floor(x), Math.floor(y)]
      const right = Math.min(lastX, left + 1)
      const above = width * top
      const below = width * Math.min(lastY, top + 1)
      for (let channel = 0; channel < 3; channel++) {
        const value = interpolate(
          data[3 * (above + left) + channel] as number,
          data[3 * (above + right) + channel] as number,
          data[3 * (below + left) + channel] as number,
          data[3 * (below + right) + channel] as number,
          x - left,
          y - top,
        )
        out[to + channel] = value * scale + offset
      }
    }
  }
  return out
}
