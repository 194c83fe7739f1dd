import { nthSmallest } from './selection.ts'

/** Middle value; of an even number of them the mean of the two in the middle. @throws RangeError for an empty list */
export function median(values: readonly number[] | Float32Array | Float64Array): number {
  if (values.length === 0) throw new RangeError('There is no median of no values.')
  const sorted = new Float64Array(values).sort()
  const half = sorted.length >> 1
  const upper = sorted[half] as number
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[half - 1] as number)) / 2
}

/** Median of many values, such as pixels: the upper of two middle values; 0 for an empty list. The list is not changed. */
export function upperMedian(values: Float32Array): number {
  return quantile(values, 0.5)
}

/** Value at share q (0..1) of the sorted values, the nearest rank; 0 for an empty list. The list is not changed. */
export function quantile(values: Float32Array, q: number): number {
  if (values.length === 0) return 0
  return nthSmallest(values, Math.round(q * (values.length - 1)))
}
