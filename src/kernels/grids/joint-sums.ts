import { withKernels } from '../with-kernels.ts'

/** Sums over the cells that both of two grids have. */
export interface JointSums {
  readonly count: number
  readonly sumA: number
  readonly sumB: number
  readonly squaresA: number
  readonly squaresB: number
  readonly products: number
}

/** How many there are. */
export const JOINT = 6

/** As kernels write them. */
export function jointSumsOf(sums: Float64Array): JointSums {
  return {
    count: sums[0] as number,
    sumA: sums[1] as number,
    sumB: sums[2] as number,
    squaresA: sums[3] as number,
    squaresB: sums[4] as number,
    products: sums[5] as number,
  }
}

/** Those of two grids of bytes as they are, of one shape; exact. */
export function jointSumsOfBytes(a: Uint8Array, b: Uint8Array): JointSums {
  return withKernels((kernels, memory) => {
    const sums = memory.room(Float64Array.BYTES_PER_ELEMENT * JOINT)
    kernels.jointByteSums(memory.put(a), memory.put(b), a.length, sums)
    return jointSumsOf(memory.doubles(sums, JOINT))
  })
}
