import { indexesBetween } from '../kernels/selection.ts'
import { nthSmallest } from './selection.ts'

/** What would lie between two ranks if values were sorted. */
export interface Between {
  /** The values of both ranks. */
  readonly low: number
  readonly high: number
  /** Where the values from one to the other stand, rising. */
  readonly indexes: Int32Array
}

/**
 * Finds what lies between two ranks of the values, both included, without sorting them; of equal values the first has the lowest rank.
 * @param from and to ranks from 0, from <= to < values.length
 */
export function betweenRanks(values: Float32Array, from: number, to: number): Between {
  const [low, high] = [nthSmallest(values, from), nthSmallest(values, to)]
  return { low, high, indexes: indexesBetween(values, [from, low], [to, high]) }
}
