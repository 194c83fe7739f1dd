import { interpolate } from '../imaging/interpolate.ts'
import type { SignatureGrid } from '../measure/schema/measurements.ts'

/** Cells of a signature, row by row from the top left: luma 1..255, 0 outside the frame. */
export interface LumaGrid {
  readonly columns: number
  readonly rows: number
  readonly luma: Float32Array
}

/** Null when the text does not hold one byte for each cell, as a report from elsewhere may. */
export function readGrid({ columns, rows, luma }: SignatureGrid): LumaGrid | null {
  const bytes = Buffer.from(luma, 'base64')
  return bytes.length === columns * rows ? { columns, rows, luma: Float32Array.from(bytes) } : null
}

/** As in a mirror. */
export function mirrored({ columns, rows, luma }: LumaGrid): LumaGrid {
  const flipped = new Float32Array(luma.length)
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      flipped[row * columns + column] = luma[row * columns + columns - 1 - column] as number
    }
  }
  return { columns, rows, luma: flipped }
}

/** A cell's place in another grid: x' = a x - b y + dx, y' = b x + a y + dy, in cells from the middle of the grid. */
export interface Similarity {
  readonly a: number
  readonly b: number
  readonly dx: number
  readonly dy: number
}

/** Moves nothing. @choice definition of the identity. */
export const IDENTITY: Similarity = { a: 1, b: 0, dx: 0, dy: 0 }

/** A grid read at moved places, between cells linearly, onto the cells of `onto`; 0 where it or the frame ends. */
export function moved(grid: LumaGrid, { a, b, dx, dy }: Similarity, onto: LumaGrid): LumaGrid {
  const { columns, rows } = onto
  const out = new Float32Array(columns * rows)
  const fromX = (grid.columns - 1) / 2 + dx
  const fromY = (grid.rows - 1) / 2 + dy
  for (let row = 0, at = 0; row < rows; row++) {
    const y = row - (rows - 1) / 2
    for (let column = 0; column < columns; column++, at++) {
      const x = column - (columns - 1) / 2
      out[at] = between(grid, a * x - b * y + fromX, b * x + a * y + fromY)
    }
  }
  return { columns, rows, luma: out }
}

function between({ luma, columns, rows }: LumaGrid, x: number, y: number): number {
  const x0 = Math.floor(x)
  const y0 = Math.floor(y)
  if (x0 < 0 || y0 < 0 || x0 + 1 >= columns || y0 + 1 >= rows) return 0
  const at = y0 * columns + x0
  const p = luma[at] as number
  const q = luma[at + 1] as number
  const r = luma[at + columns] as number
  const s = luma[at + columns + 1] as number
  if (p === 0 || q === 0 || r === 0 || s === 0) return 0
  return interpolate(p, q, r, s, x - x0, y - y0)
}
