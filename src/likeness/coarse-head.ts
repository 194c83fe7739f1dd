import type { ByteGrid } from '../kernels/grids.ts'
import { mirrored } from './luma-grid.ts'
import type { Way } from './ready-signature.ts'

/** A head at half the resolution of its grid, to be compared with thousands of others: sums of four lumas; 0 where one of them lies outside the frame. */
export type CoarseHead = Readonly<Record<Way, Int16Array>>

export function coarseHead(head: ByteGrid): CoarseHead {
  return { plain: halved(head), mirror: halved(mirrored(head)) }
}

function halved({ columns: from, rows: high, luma }: ByteGrid): Int16Array {
  const columns = from >> 1
  const rows = high >> 1
  const out = new Int16Array(columns * rows)
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const at = 2 * row * from + 2 * column
      const p = luma[at] as number
      const q = luma[at + 1] as number
      const r = luma[at + from] as number
      const s = luma[at + from + 1] as number
      out[row * columns + column] = p === 0 || q === 0 || r === 0 || s === 0 ? 0 : p + q + r + s
    }
  }
  return out
}
