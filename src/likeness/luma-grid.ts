import type { ByteGrid, Similarity } from '../kernels/grids.ts'
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

/** Moves nothing. @choice definition of the identity. */
export const IDENTITY: Similarity = { a: 1, b: 0, dx: 0, dy: 0 }
