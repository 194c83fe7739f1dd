import { withKernels } from './with-kernels.ts'

/** Digits by which values are counted at a time. */
const DIGITS = 2048

/** The value that would stand at `rank` (from 0) if the values were sorted as `Float32Array.prototype.sort` does it. */
export function nthOf(values: Float32Array, rank: number): number {
  return withKernels((kernels, memory) => {
    const counts = memory.room(Int32Array.BYTES_PER_ELEMENT * DIGITS)
    return kernels.nthSmallest(memory.put(values), values.length, rank, counts)
  })
}

/** Where the values from `low` at one rank to `high` at another, both included, stand, rising; of equal values the first has the lowest rank. */
export function indexesBetween(
  values: Float32Array,
  [from, low]: readonly [rank: number, value: number],
  [to, high]: readonly [rank: number, value: number],
): Int32Array {
  return withKernels((kernels, memory) => {
    const count = to - from + 1
    const out = memory.room(Int32Array.BYTES_PER_ELEMENT * count)
    kernels.betweenRanks(memory.put(values), values.length, from, to, low, high, out)
    return memory.wholes(out, count)
  })
}
