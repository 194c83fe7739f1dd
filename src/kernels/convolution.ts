import { withKernels } from './memory.ts'

const FLOAT = Float32Array.BYTES_PER_ELEMENT

/**
 * Convolves a plane by the same weights along its rows and down its columns, in single precision; beyond the border the outermost
 * pixels go on.
 * @param weights an odd number of them, the middle one for the pixel itself
 */
export function convolved(
  values: Float32Array,
  width: number,
  height: number,
  weights: Float32Array,
): Float32Array {
  return withKernels((kernels, memory) => {
    const out = memory.room(values.byteLength)
    kernels.convolve(
      memory.put(values),
      out,
      width,
      height,
      memory.put(weights),
      weights.length,
      memory.room(FLOAT * (width + weights.length)),
      memory.room(FLOAT * weights.length),
      memory.room(values.byteLength),
    )
    return memory.floats(out, values.length)
  })
}
