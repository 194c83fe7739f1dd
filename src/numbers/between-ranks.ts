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
  let lowRank = 0
  let highRank = 0
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number
    if (value < low) lowRank++
    if (value < high) highRank++
  }
  const indexes = new Int32Array(to - from + 1)
  for (let i = 0, count = 0; count < indexes.length; i++) {
    const value = values[i] as number
    if (value < low || value > high) continue
    if (value === low && lowRank++ < from) continue
    if (value === high && high > low && highRank++ > to) continue
    indexes[count++] = i
  }
  return { low, high, indexes }
}
