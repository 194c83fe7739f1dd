import { type ColorStrip, stripKernels } from './sides.ts'

/** A line whose depth is `start + slope x position`. */
interface Line {
  readonly start: number
  readonly slope: number
}

type Color = readonly [number, number, number]

/** Numbers of a line, and of a bin. */
const [LINE, FILL_SUMS] = [2, 3]

const { kernels, memory } = stripKernels

/**
 * How a color fills a strip outside of each of some lines: of each bin of positions the sum of the squares of what the colors there differ by from those
 * inside of the line, the same less the fill as far as the line leaves it in a pixel, and the number of values. Line by line, in double precision.
 * @param look `read` of the `size` positions of a bin, as many `rows` outside of the line, and inside of it from `clear` on; bins in which the line is
 *   deeper than `deepest` or outside of the frame have no values
 */
export function fillSums(
  { planes, length }: Pick<ColorStrip, 'planes' | 'length'>,
  lines: readonly Line[],
  color: Color,
  look: {
    readonly bins: number
    readonly size: number
    readonly read: number
    readonly deepest: number
    readonly clear: number
    readonly rows: number
  },
): Float64Array {
  const { bins, size, read, deepest, clear, rows } = look
  const numbers = new Float64Array(LINE * lines.length)
  for (let k = 0; k < lines.length; k++) {
    const { start, slope } = lines[k] as Line
    numbers[LINE * k] = start
    numbers[LINE * k + 1] = slope
  }
  const before = kernels.taken()
  const at = memory.put(numbers)
  const count = FILL_SUMS * bins * lines.length
  const out = memory.room(Float64Array.BYTES_PER_ELEMENT * count)
  kernels.fillSums(
    ...[...planes, length, at, lines.length, ...color],
    ...[bins, size, read, deepest, clear, rows, out],
  )
  const sums = memory.doubles(out, count)
  kernels.giveBack(before)
  return sums
}

/** Bytes of a vector. */
const VECTOR = 16

/**
 * How far each column of a strip runs inward, in rows, before red, green or blue differs from a color by more than each of the tolerances.
 * @param tolerances codes, rising
 * @param strip of at most 255 rows
 */
export function runsWithin(
  { planes, length, depth }: Omit<ColorStrip, 'luma'>,
  color: Color,
  tolerances: readonly number[],
): Uint8Array[] {
  const before = kernels.taken()
  const room = VECTOR * Math.ceil(length / VECTOR)
  const out = memory.room(room * tolerances.length)
  const limits = memory.put(Uint8Array.from(tolerances))
  kernels.runsWithin(...planes, length, depth, ...color, limits, tolerances.length, out, room)
  const runs: Uint8Array[] = []
  for (let k = 0; k < tolerances.length; k++) runs.push(memory.bytes(out + k * room, length))
  kernels.giveBack(before)
  return runs
}

/** How many runs of 1 and more end before a depth. */
export function countEnding(runs: Uint8Array, depth: number): number {
  const before = kernels.taken()
  const count = kernels.countEnding(memory.put(runs), runs.length, depth)
  kernels.giveBack(before)
  return count
}

/**
 * The line of one of some slopes on which most of every `stride`th run end, within a bin and its neighbors, of the runs of 1 and more that end before a
 * depth; null where none does.
 * @param origin the position at which a line has the depth by which it is told from others of its slope
 */
export function commonLine(
  runs: Uint8Array,
  depth: number,
  slopes: Float64Array,
  { origin, stride }: { readonly origin: number; readonly stride: number },
): Line | null {
  const before = kernels.taken()
  const out = memory.room(Float64Array.BYTES_PER_ELEMENT)
  const votes = memory.room(Int32Array.BYTES_PER_ELEMENT * (2 * depth + 1))
  const places = [origin, stride, memory.put(slopes), slopes.length]
  const found = kernels.commonLine(memory.put(runs), runs.length, depth, ...places, votes, out)
  const [start = 0] = memory.doubles(out, 1)
  kernels.giveBack(before)
  return found < 0 ? null : { start, slope: slopes[found] as number }
}
