import type { RgbPicture } from './rgb-picture.ts'

/**
 * Bilinear interpolation between four neighbors, the upper two and the lower two from left to right.
 * @param right and down the place between them, 0..1 of the way to the right and down
 */
export function interpolate(a: number, b: number, c: number, d: number, right: number, down: number): number {
  const upper = a * (1 - right) + b * right
  const lower = c * (1 - right) + d * right
  return upper * (1 - down) + lower * down
}

/**
 * Adds R, G and B at a place of a picture, px, to a sum; pixels are centered at halves. Beyond the frame its edge goes on.
 * @param sum three numbers, changed
 */
export function addColorAt(
  sum: Float64Array,
  { data, width, height }: RgbPicture,
  x: number,
  y: number,
): void {
  const column = within(x - 0.5, width - 1)
  const row = within(y - 0.5, height - 1)
  const left = Math.floor(column)
  const top = Math.floor(row)
  const right = column - left
  const down = row - top
  const next = 3 * (Math.min(width - 1, left + 1) - left)
  const below = 3 * width * (Math.min(height - 1, top + 1) - top)
  for (let channel = 0, at = 3 * (top * width + left); channel < 3; channel++, at++) {
    const value = interpolate(
      data[at] as number,
      data[at + next] as number,
      data[at + below] as number,
      data[at + below + next] as number,
      right,
      down,
    )
    sum[channel] = (sum[channel] as number) + value
  }
}

/** The value of a plane at a place, cells; they are centered at halves. Beyond the plane its edge goes on. */
export function valueAt(plane: Float32Array, columns: number, rows: number, x: number, y: number): number {
  const column = within(x - 0.5, columns - 1)
  const row = within(y - 0.5, rows - 1)
  const left = Math.min(columns - 2, Math.floor(column))
  const top = Math.min(rows - 2, Math.floor(row))
  const at = top * columns + left
  return interpolate(
    plane[at] as number,
    plane[at + 1] as number,
    plane[at + columns] as number,
    plane[at + columns + 1] as number,
    column - left,
    row - top,
  )
}

/** A place within the middles of the first and the last cell. */
export function within(value: number, last: number): number {
  return Math.min(last, Math.max(0, value))
}
