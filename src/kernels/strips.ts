import { withKernels } from './memory.ts'

/** The outer part of a picture along one side, row by row from the frame's edge inward. */
interface Strip {
  readonly length: number
  readonly depth: number
}

/** A line whose depth is `start + slope x position`, and how many bins of positions are read from `first` on. */
interface Line {
  readonly start: number
  readonly slope: number
  readonly first: number
  readonly bins: number
}

/** How closely it is looked, px: at every `stride`th of the `size` positions of a bin, as far as `reach` from the line. */
interface Look {
  readonly size: number
  readonly stride: number
  readonly reach: number
  /** Beyond it every second place is read, beyond `later` every third. */
  readonly soon: number
  readonly later: number
}

type LumaStrip = Strip & { readonly luma: Float32Array }

/** Numbers of a bin. */
const MIRROR_SUMS = 3
const REPEAT_SUMS = 4

/**
 * How a strip is mirrored in each of some lines: of each bin the sum over places outside of the line of the squares of what they differ by from the
 * place mirrored in it, the same of the places beside that, and the number of places. In single precision.
 * @param look with how far from the place mirrored in the line those lie that must differ
 */
export function mirrorSums(
  strip: LumaStrip,
  lines: readonly Line[],
  look: Look & { readonly away: number },
): Float32Array[] {
  const { size, stride, reach, away, soon, later } = look
  return sumsAlong('mirrorSums', MIRROR_SUMS, strip, lines, [size, stride, reach, away, soon, later])
}

/**
 * How a strip repeats the colors along each of some lines: of each bin the sum over places outside of the line of the squares of what they differ by
 * from the color there, the same inside of it, the lesser of both along it outside, and the number of places. In single precision.
 * @param look with how far beside the line its color is read, and the least distance from it that is compared
 */
export function repeatSums(
  strip: LumaStrip,
  lines: readonly Line[],
  look: Look & { readonly clear: number; readonly nearest: number },
): Float32Array[] {
  const { size, stride, reach, soon, later, clear, nearest } = look
  return sumsAlong('repeatSums', REPEAT_SUMS, strip, lines, [
    size,
    stride,
    reach,
    soon,
    later,
    clear,
    nearest,
  ])
}

function sumsAlong(
  kernel: 'mirrorSums' | 'repeatSums',
  numbers: number,
  { luma, length, depth }: LumaStrip,
  lines: readonly Line[],
  look: readonly number[],
): Float32Array[] {
  return withKernels((kernels, memory) => {
    const at = memory.put(luma)
    const most = Math.max(0, ...lines.map(({ bins }) => bins))
    const out = memory.room(Float32Array.BYTES_PER_ELEMENT * numbers * most)
    return lines.map(({ start, slope, first, bins }) => {
      kernels[kernel](at, length, depth, start, slope, first, bins, ...look, out)
      return memory.floats(out, numbers * bins)
    })
  })
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
  { planes, length, depth }: ColorStrip,
  lines: readonly Pick<Line, 'start' | 'slope'>[],
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
    const at = memory.put(joined(planes))
    const out = memory.room(Float64Array.BYTES_PER_ELEMENT * FILL_SUMS * bins)
    return lines.map(({ start, slope }) => {
      kernels.fillSums(at, length, depth, start, slope, ...color, bins, size, read, deepest, clear, rows, out)
      return memory.doubles(out, FILL_SUMS * bins)
    })
  })
}

function joined(planes: ColorStrip['planes']): Uint8Array {
  const [first] = planes
  const all = new Uint8Array(planes.length * first.length)
  for (const [i, plane] of planes.entries()) all.set(plane, i * first.length)
  return all
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
