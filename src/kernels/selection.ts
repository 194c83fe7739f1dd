import { withKernels } from './memory.ts'

/** Digits by which values are counted at a time. */
const DIGITS = 2048

/** The value that would stand at `rank` (from 0) if the values were sorted as `Float32Array.prototype.sort` does it. */
export function nthOf(values: Float32Array, rank: number): number {
  return withKernels((kernels, memory) => {
    const counts = memory.room(Int32Array.BYTES_PER_ELEMENT * DIGITS)
    return kernels.nthSmallest(memory.put(values), values.length, rank, counts)
  })
}
