import { withKernels } from './with-kernels.ts'

const [FLOAT, DOUBLE] = [Float32Array.BYTES_PER_ELEMENT, Float64Array.BYTES_PER_ELEMENT]

/**
 * The values along the path from the first column to the last that adds up to most, one a column, each a row up or down from the last at the most. Summed up
 * in double precision.
 * @param values row by row
 * @param sign 1, or -1 for the values turned over
 */
export function clearestPath(
  values: Float32Array,
  columns: number,
  rows: number,
  sign: 1 | -1,
): Float32Array {
  return withKernels((kernels, memory) => {
    const sums = memory.room(2 * DOUBLE * (rows + 2))
    const steps = memory.room(columns * rows)
    const out = memory.room(FLOAT * columns)
    kernels.clearestPath(memory.put(values), columns, rows, sign, sums, steps, out)
    return memory.floats(out, columns)
  })
}
