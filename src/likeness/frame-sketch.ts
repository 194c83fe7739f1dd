import { type LumaGrid, mirrored } from './luma-grid.ts'

/** A frame as a few numbers that bound how alike it and another one are. */
export interface FrameSketch {
  readonly columns: number
  readonly rows: number
  readonly plain: Float64Array
  readonly mirror: Float64Array
  /** Length of what the numbers leave out, 0 to 1. */
  readonly rest: number
}

/** Edge of the squares whose means are kept, cells. @choice 4: a frame of 32 x 26 cells comes to 48 numbers, and little detail is left out */
const BLOCK = 4

/** Added to a bound for what rounding takes off. @choice far above the rounding of doubles, no source */
const SLACK = 1e-9

/** Null for a frame of one brightness, which is like no other, and where a cell lies outside the picture. */
export function frameSketch(frame: LumaGrid): FrameSketch | null {
  if (frame.luma.some((value) => value === 0)) return null
  const { columns, rows } = frame
  const plain = blocksOf(frame)
  const mirror = blocksOf(mirrored(frame))
  if (!plain || !mirror) return null
  // A mirror keeps the length of the whole, and may move cells between squares.
  const rest = Math.max(restOf(plain), restOf(mirror))
  return { columns, rows, plain, mirror, rest }
}

/**
 * No less than the correlation of two frames of the same shape, the second as it is or mirrored.
 * @source the inequality of Cauchy and Schwarz, for what is left out of either
 */
export function mostAlike(a: FrameSketch, b: FrameSketch): number {
  if (a.columns !== b.columns || a.rows !== b.rows) return 1
  let plain = 0
  let mirror = 0
  for (let k = 0; k < a.plain.length; k++) {
    const value = a.plain[k] as number
    plain += value * (b.plain[k] as number)
    mirror += value * (b.mirror[k] as number)
  }
  return Math.max(plain, mirror) + a.rest * b.rest + SLACK
}

/** The frame with mean 0 and length 1, on the vectors that are even over one square each; null when it is of one brightness. */
function blocksOf({ columns, rows, luma }: LumaGrid): Float64Array | null {
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
