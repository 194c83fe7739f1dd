import { nthSmallest } from './selection.ts'

/** Middle value; 0 for an empty list. The list is not changed. */
export function median(values: Float32Array): number {
  return quantile(values, 0.5)
}

/** Value at share q (0..1) of the sorted values, the nearest rank; 0 for an empty list. */
export function quantile(values: Float32Array, q: number): number {
  if (values.length === 0) return 0
  return nthSmallest(values, Math.round(q * (values.length - 1)))
}
