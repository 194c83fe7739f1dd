import { withKernels } from './memory.ts'

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

/** A parabola c0 + c1 x + c2 x^2. */
export type Parabola = readonly [number, number, number]

/**
 * How far the values of three planes are from three parabolas a row, all three together (Euclidean), in the first rows.
 * @param out what it is written to, as long as a plane; the rest stays
 * @param us x of each column
 * @param rows of each row the parabolas of the three planes
 */
export function writeDistances(
  out: Float32Array,
  planes: readonly [Float32Array, Float32Array, Float32Array],
  us: Float32Array,
  rows: readonly (readonly [Parabola, Parabola, Parabola])[],
): void {
  withKernels((kernels, memory) => {
    const count = us.length * rows.length
    const to = memory.room(FLOAT * count)
    const [L, a, b] = planes.map((plane) => memory.put(plane.subarray(0, count))) as [number, number, number]
    const terms = memory.put(Float32Array.from(rows.flat(2)))
    kernels.distances(to, L, a, b, memory.put(us), terms, us.length, rows.length)
    out.set(memory.floats(to, count))
  })
}

/** Rows of a picture. */
interface RowRange {
  readonly width: number
  readonly height: number
  /** The first row that is looked at, and the one after the last. */
  readonly first: number
  readonly end: number
}

/**
 * Indexes, rising, of the pixels where the gradient of one of three planes, between the values `reach` pixels to each side as far as they lie in the
 * frame, is at least `least` per pixel long, in single precision; the outermost columns are left out.
 */
export function steepPixels(
  planes: readonly [Float32Array, Float32Array, Float32Array],
  { width, height, first, end }: RowRange,
  reach: number,
  least: number,
): Int32Array {
  return withKernels((kernels, memory) => {
    const [L, a, b] = planes.map((plane) => memory.put(plane)) as [number, number, number]
    const out = memory.room(Int32Array.BYTES_PER_ELEMENT * width * Math.max(0, end - first))
    const count = kernels.steepPixels(L, a, b, width, height, first, end, reach, least * least, out)
    return memory.wholes(out, count)
  })
}
