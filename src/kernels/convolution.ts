import { withKernels } from './with-kernels.ts'

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

/**
 * What some pixels have when a plane is convolved so by each of some kinds of weights.
 * @param pixels indexes
 */
export function convolvedAt(
  values: Float32Array,
  width: number,
  height: number,
  kinds: readonly Float32Array[],
  pixels: Int32Array,
): Float32Array[] {
  return withKernels((kernels, memory) => {
    const source = memory.put(values)
    const indexes = memory.put(pixels)
    const [all, across] = [memory.room(values.byteLength), memory.room(values.byteLength)]
    const out = memory.room(FLOAT * pixels.length)
    const before = kernels.taken()
    return kinds.map((weights) => {
      const line = memory.room(FLOAT * (width + weights.length))
      const places = memory.room(FLOAT * weights.length)
      kernels.convolve(
        ...[source, all, width, height, memory.put(weights), weights.length],
        ...[line, places, across],
      )
      kernels.giveBack(before)
      kernels.pick(all, indexes, pixels.length, out)
      return memory.floats(out, pixels.length)
    })
  })
}

/** How much two lists of values differ, as shares of a third, or of 1 where that is less. */
export function contrasts(a: Float32Array, b: Float32Array, of: Float32Array): Float32Array {
  return withKernels((kernels, memory) => {
    const out = memory.room(a.byteLength)
    kernels.contrasts(memory.put(a), memory.put(b), memory.put(of), a.length, out)
    return memory.floats(out, a.length)
  })
}

/**
 * Weighted sums of what is around each value of a plane, first down its columns, then along its rows, in single precision; only where there is a value
 * for each weight, so that a row gets shorter by one less than there are weights along it, and a column by as much.
 */
export function weighedInside(
  values: Float32Array,
  width: number,
  down: Float32Array,
  along: Float32Array,
): Float32Array {
  const height = values.length / width - down.length + 1
  const across = width - along.length + 1
  return withKernels((kernels, memory) => {
    const source = memory.put(values)
    const [columns, rows] = [memory.room(values.byteLength), memory.room(values.byteLength)]
    const weigh = (from: number, step: number, weights: Float32Array, count: number, to: number) => {
      const places = memory.put(Int32Array.from(weights, (_, k) => from + FLOAT * step * k))
      kernels.weigh(places, FLOAT * count, memory.put(weights), weights.length, to)
    }
    weigh(source, width, down, width * height, columns)
    weigh(columns, 1, along, width * height - along.length + 1, rows)
    const out = new Float32Array(across * height)
    const all = memory.floats(rows, width * height)
    for (let y = 0; y < height; y++) out.set(all.subarray(y * width, y * width + across), y * across)
    return out
  })
}
