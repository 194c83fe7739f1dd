import { withKernels } from './memory.ts'

/** The outer part of a picture along one side, row by row from the frame's edge inward. */
interface Strip {
  readonly length: number
  readonly depth: number
}

/** A line whose depth is `start + slope x position`. */
interface Line {
  readonly start: number
  readonly slope: number
}

type ColorStrip = Strip & { readonly planes: readonly [Uint8Array, Uint8Array, Uint8Array] }
type Color = readonly [number, number, number]

/** Numbers of a bin. */
const FILL_SUMS = 3

/**
 * How a color fills a strip outside of each of some lines: of each bin of positions the sum of the squares of what the colors there differ by from those
 * inside of the line, the same less the fill as far as the line leaves it in a pixel, and the number of values. In double precision.
 * @param look `read` of the `size` positions of a bin, as many `rows` outside of the line, and inside of it from `clear` on; bins in which the line is
 *   deeper than `deepest` or outside of the frame have no values
 */
export function fillSums(
  { planes, length }: Omit<ColorStrip, 'depth'>,
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
): Float64Array[] {
  const { bins, size, read, deepest, clear, rows } = look
  return withKernels((kernels, memory) => {
    const [reds, greens, blues] = planes.map((plane) => memory.put(plane)) as [number, number, number]
    const out = memory.room(Float64Array.BYTES_PER_ELEMENT * FILL_SUMS * bins)
    const looked = [bins, size, read, deepest, clear, rows, out]
    return lines.map(({ start, slope }) => {
      kernels.fillSums(reds, greens, blues, length, start, slope, ...color, ...looked)
      return memory.doubles(out, FILL_SUMS * bins)
    })
  })
}

/** Bytes of a vector. */
const VECTOR = 16

/**
 * How far each column of a strip runs inward, in rows, before red, green or blue differs from a color by more than each of the tolerances.
 * @param tolerances codes, rising
 * @param strip of at most 255 rows
 */
export function runsWithin(
  { planes, length, depth }: ColorStrip,
  color: Color,
  tolerances: readonly number[],
): Uint8Array[] {
  return withKernels((kernels, memory) => {
    const [reds, greens, blues] = planes.map((plane) => memory.put(plane)) as [number, number, number]
    const room = VECTOR * Math.ceil(length / VECTOR)
    const out = memory.room(room * tolerances.length)
    const limits = memory.put(Uint8Array.from(tolerances))
    kernels.runsWithin(reds, greens, blues, length, depth, ...color, limits, tolerances.length, out, room)
    return tolerances.map((_, k) => memory.bytes(out + k * room, length))
  })
}
