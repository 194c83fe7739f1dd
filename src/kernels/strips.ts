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
  /** How far from the place mirrored in the line those lie that must differ. */
  readonly away: number
  /** Beyond it every second place is read, beyond `later` every third. */
  readonly soon: number
  readonly later: number
}

/** Numbers of a bin. */
const SUMS = 3

/**
 * How a strip is mirrored in each of some lines: of each bin the sum over places outside of the line of the squares of what they differ by from the
 * place mirrored in it, the same of the places further or nearer than that, the lesser of the two, and the number of places. In single precision.
 */
export function mirrorSums(
  { gray, length, depth }: Strip & { readonly gray: Float32Array },
  lines: readonly Line[],
  { size, stride, reach, away, soon, later }: Look,
): Float32Array[] {
  return withKernels((kernels, memory) => {
    const at = memory.put(gray)
    const most = Math.max(0, ...lines.map(({ bins }) => bins))
    const out = memory.room(Float32Array.BYTES_PER_ELEMENT * SUMS * most)
    return lines.map(({ start, slope, first, bins }) => {
      const look = [size, stride, reach, away, soon, later]
      kernels.mirrorSums(at, length, depth, start, slope, first, bins, ...look, out)
      return memory.floats(out, SUMS * bins)
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
  { planes, length, depth }: Strip & { readonly planes: readonly [Uint8Array, Uint8Array, Uint8Array] },
  color: readonly [number, number, number],
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
