import type { ByteGrid } from '../kernels/grids/grids.ts'
import { mirrored } from './luma-grid.ts'
import type { Way } from './ready-signature.ts'

/**
 * A frame as a few numbers that bound how alike it and another one of the same shape are: no less than the correlation of both is the inner
 * product of these numbers of them, and with one of them mirrored that with its mirror.
 * @source the inequality of Cauchy and Schwarz, for what is left out of either
 */
export interface FrameSketch extends Readonly<Record<Way, Float32Array>> {
  readonly columns: number
  readonly rows: number
}

/** Edge of the squares whose means are kept, cells. @choice 4: a frame of 32 x 26 cells comes to 48 numbers, and little detail is left out */
const BLOCK = 4

/** Added to the length of what is left out for what rounding takes off. @choice far above the rounding of floats, no source */
const SLACK = 1e-3

/** Null for a frame of one brightness, which is like no other, and where a cell lies outside the picture. */
export function frameSketch(frame: ByteGrid): FrameSketch | null {
  if (frame.luma.some((value) => value === 0)) return null
  const { columns, rows } = frame
  const plain = blocksOf(frame)
  const mirror = blocksOf(mirrored(frame))
  if (!plain || !mirror) return null
  // A mirror keeps the length of the whole, and may move cells between squares.
  const rest = Math.max(restOf(plain), restOf(mirror)) + SLACK
  return { columns, rows, plain: Float32Array.of(...plain, rest), mirror: Float32Array.of(...mirror, rest) }
}

/** The frame with mean 0 and length 1, on the vectors that are even over one square each; null when it is of one brightness. */
function blocksOf({ columns, rows, luma }: ByteGrid): Float64Array | null {
  const mean = luma.reduce((sum, value) => sum + value, 0) / luma.length
  const length = Math.sqrt(luma.reduce((sum, value) => sum + (value - mean) ** 2, 0))
  if (length === 0) return null
  const across = Math.ceil(columns / BLOCK)
  const sums = new Float64Array(across * Math.ceil(rows / BLOCK))
  const cells = new Float64Array(sums.length)
  for (let i = 0; i < luma.length; i++) {
    const block = Math.floor(i / columns / BLOCK) * across + Math.floor((i % columns) / BLOCK)
    sums[block] = (sums[block] as number) + ((luma[i] as number) - mean) / length
    cells[block] = (cells[block] as number) + 1
  }
  return sums.map((sum, block) => sum / Math.sqrt(cells[block] as number))
}

function restOf(blocks: Float64Array): number {
  return Math.sqrt(Math.max(0, 1 - blocks.reduce((sum, value) => sum + value ** 2, 0)))
}
