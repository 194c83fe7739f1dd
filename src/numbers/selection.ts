import { nthOf } from '../kernels/selection.ts'

/** Fewest values for which counting digits is faster than sorting. @tuned by timing both, no figures kept. */
const FEW = 256

/**
 * The value that would stand at `rank` (from 0) if the values were sorted as `Float32Array.prototype.sort` does it;
 * the values stay as they are. Counts digits (a radix search), so the time grows with the number of values alone.
 */
export function nthSmallest(values: Float32Array, rank: number): number {
  return values.length < FEW ? (values.slice().sort()[rank] as number) : nthOf(values, rank)
}
