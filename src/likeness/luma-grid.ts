import type { ByteGrid, Similarity } from '../kernels/grids/grids.ts'
import type { SignatureGrid } from '../measure/schema/measurements.ts'

/** Null when the text does not hold one byte for each cell, as a report from elsewhere may. */
export function readGrid({ columns, rows, luma }: SignatureGrid): ByteGrid | null {
  const bytes = new Uint8Array(Buffer.from(luma, 'base64'))
  return bytes.length === columns * rows ? { columns, rows, luma: bytes } : null
}

/** As in a mirror. */
export function mirrored({ columns, rows, luma }: ByteGrid): ByteGrid {
  const flipped = new Uint8Array(luma.length)
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      flipped[row * columns + column] = luma[row * columns + columns - 1 - column] as number
    }
  }
  return { columns, rows, luma: flipped }
}

/** At half the resolution: means of four cells; 0 where one of them lies outside the frame. */
export function halved({ columns: from, rows: high, luma }: ByteGrid): ByteGrid {
  const columns = from >> 1
  const rows = high >> 1
  const out = new Uint8Array(columns * rows)
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const at = 2 * row * from + 2 * column
      const p = luma[at] as number
      const q = luma[at + 1] as number
      const r = luma[at + from] as number
      const s = luma[at + from + 1] as number
      out[row * columns + column] = p === 0 || q === 0 || r === 0 || s === 0 ? 0 : (p + q + r + s + 2) >> 2
    }
  }
  return { columns, rows, luma: out }
}

/** Moves nothing. @choice definition of the identity. */
export const IDENTITY: Similarity = { a: 1, b: 0, dx: 0, dy: 0 }
