import { withKernels } from './with-kernels.ts'

const FLOAT = Float32Array.BYTES_PER_ELEMENT

/**
 * Mean of the values within a square of `radius` pixels around each pixel, as far as it lies in the frame, in single
 * precision. Takes longer with a larger radius.
 */
export function meanOfSquares(
  values: Float32Array,
  width: number,
  height: number,
  radius: number,
): Float32Array {
  return withKernels((kernels, memory) => {
    const source = memory.put(values)
    const out = memory.room(values.byteLength)
    kernels.meanOfSquares(source, out, memory.room(FLOAT * width), width, height, radius)
    return memory.floats(out, values.length)
  })
}

/**
 * How fast a plane changes at each pixel, per pixel: the length of its gradient between the values `reach` pixels to each
 * side, as far as they lie in the frame.
 */
export function slopes(values: Float32Array, width: number, height: number, reach: number): Float32Array {
  return withKernels((kernels, memory) => {
    const source = memory.put(values)
    const out = memory.room(values.byteLength)
    kernels.slopes(source, out, width, height, reach)
    return memory.floats(out, values.length)
  })
}

/** 1 where a value is above the limit, else 0. */
export function above(values: Float32Array, limit: number): Uint8Array {
  return withKernels((kernels, memory) => {
    const out = memory.room(values.length)
    kernels.above(memory.put(values), values.length, limit, out)
    return memory.bytes(out, values.length)
  })
}
