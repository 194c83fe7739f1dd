import { type LumaStrip, stripKernels } from './sides.ts'

/** A line whose depth is `start + slope x position`. */
interface Line {
  readonly start: number
  readonly slope: number
}

/** How much each row of a strip differs from the next in bins of positions, beyond what its row and its bin do throughout; in the memory of strips. */
export interface RowDifferences {
  /** Address of floats: sums over the rows further out, in spreads, at `[row * bins + bin]`; one row more than there are. */
  readonly sums: number
  readonly bins: number
  readonly rows: number
}

/** Positions of a bin. @choice enough for a mean square, and short beside a wedge; 8 and 32 tell about as much */
const BIN = 16

/** Squares of sixteenths of a code in a squared code. @choice definition */
const SQUARES = 256

const { kernels, memory } = stripKernels
const DOUBLE = Float64Array.BYTES_PER_ELEMENT

/**
 * Logarithms of the mean squares by which the rows of a strip differ from the next, and what the means of rows and of bins leave of them. In double
 * precision but for the sums.
 * @param floor mean square that is added to each, squared codes
 * @param spread the least that is assumed of the logarithms, and how many of it one cell tells at most
 */
export function rowDifferences(
  { luma, length, depth }: LumaStrip,
  floor: number,
  spread: { readonly least: number; readonly most: number },
): RowDifferences {
  const [bins, rows] = [Math.floor(length / BIN), Math.max(0, depth - 1)]
  const count = bins * rows
  const sums = memory.room(Float32Array.BYTES_PER_ELEMENT * (count + bins))
  const before = kernels.taken()
  const values = memory.room(DOUBLE * count)
  const steps = memory.room(Int32Array.BYTES_PER_ELEMENT * count)
  const means = memory.room(DOUBLE * (rows + bins))
  kernels.rowSteps(luma, length, rows, bins, steps)
  const { buffer } = memory.seen(values, 0)
  writeLogarithms(new Int32Array(buffer, steps, count), floor, new Float64Array(buffer, values, count))
  kernels.addUpRows(values, rows, bins, spread.least, spread.most, means, sums)
  kernels.giveBack(before)
  return { sums, bins, rows }
}

/** A copy of the sums. */
export function sumsOf({ sums, bins, rows }: RowDifferences): Float32Array {
  return memory.floats(sums, bins * (rows + 1))
}

/** By the engine's own logarithm: that of kernels differs in the last digit. */
function writeLogarithms(steps: Int32Array, floor: number, out: Float64Array): void {
  for (let i = 0; i < steps.length; i++) out[i] = Math.log((steps[i] as number) / (SQUARES * BIN) + floor)
}

/**
 * By how many standard errors the rows outside of each of some lines differ less from the next than elsewhere; not a number where less than one cell tells.
 * @param border how far inside of the line the middle of two rows lies whose difference begins to belong to the outside, px
 */
export function errorsOutside(
  { sums, bins, rows }: RowDifferences,
  lines: readonly Line[],
  border: number,
): Float64Array {
  const numbers = new Float64Array(2 * lines.length)
  for (let k = 0; k < lines.length; k++) {
    const { start, slope } = lines[k] as Line
    numbers[2 * k] = start
    numbers[2 * k + 1] = slope
  }
  const before = kernels.taken()
  const at = memory.put(numbers)
  const room = memory.room(2 * DOUBLE * (rows + 1))
  const out = memory.room(DOUBLE * lines.length)
  kernels.errorsOutside(sums, rows, bins, at, lines.length, border, room, out)
  const errors = memory.doubles(out, lines.length)
  kernels.giveBack(before)
  return errors
}
