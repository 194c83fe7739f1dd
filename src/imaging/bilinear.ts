import { interpolate, within } from './interpolate.ts'
import type { RgbPicture } from './rgb-picture.ts'

/** A grid of places in a picture, in pixels: the first, and the step from each to the next. Pixels stand at whole numbers. */
export interface Grid {
  readonly left: number
  readonly top: number
  readonly stepX: number
  readonly stepY: number
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
  { left, top, stepX, stepY }: Grid,
  { scale, offset }: Range,
  outside: 'edge' | 'black',
): Float32Array<ArrayBuffer> {
  const columns = axis(left, stepX, size, width, outside)
  const rows = axis(top, stepY, size, height, outside)
  const out = new Float32Array(3 * size * size).fill(offset)
  for (let y = 0, to = 0; y < size; y++) {
    const above = 3 * width * (rows.before[y] as number)
    const below = 3 * width * (rows.after[y] as number)
    const down = rows.share[y] as number
    for (let x = 0; x < size; x++, to += 3) {
      if (above < 0 || (columns.before[x] as number) < 0) continue
      const before = 3 * (columns.before[x] as number)
      const after = 3 * (columns.after[x] as number)
      const across = columns.share[x] as number
      for (let channel = 0; channel < 3; channel++) {
        const value = interpolate(
          data[above + before + channel] as number,
          data[above + after + channel] as number,
          data[below + before + channel] as number,
          data[below + after + channel] as number,
          across,
          down,
        )
        out[to + channel] = value * scale + offset
      }
    }
  }
  return out
}

interface Axis {
  /** The pixels to both sides of each place; `before` is -1 outside the picture. */
  readonly before: Int32Array
  readonly after: Int32Array
  /** How far each place lies towards the pixel after it, 0..1. */
  readonly share: Float32Array
}

function axis(first: number, step: number, size: number, length: number, outside: 'edge' | 'black'): Axis {
  const before = new Int32Array(size)
  const after = new Int32Array(size)
  const share = new Float32Array(size)
  const last = length - 1
  for (let i = 0; i < size; i++) {
    const place = first + i * step
    if (outside === 'black' && (place < 0 || place > last)) {
      before[i] = -1
      continue
    }
    const clamped = within(place, last)
    const floor = Math.floor(clamped)
    before[i] = floor
    after[i] = Math.min(last, floor + 1)
    share[i] = clamped - floor
  }
  return { before, after, share }
}
