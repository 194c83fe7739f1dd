import { median } from './quantile.ts'
import { robust, score } from './robust.ts'

/** Values in two groups: every one below `border` is in the lower group. */
export interface TwoGroups {
  readonly border: number
  /** How far apart the two medians are, in standard deviations of the wider group; stray values count in neither. */
  readonly separation: number
  /** False where a wider gap divides one of the groups: a few strays, with some of the others beside them, are no group. */
  readonly isApart: boolean
}

/** Spreads off the median of its group from which on a value counts as a stray one. @choice far beyond an outlier ({@link score}). */
const STRAY = 10

/**
 * The values divided into two groups so that they lie as close to the median of their own as can be: the best split of one dimension
 * by k-medians.
 * @param fewest values that a group must have, 1 or more
 * @returns null where there are too few values, or all are equal
 * @source Bradley, Mangasarian and Street, "Clustering via Concave Minimization", NIPS 9 (1997), for k-medians.
 */
export function twoGroups(values: readonly number[], fewest: number): TwoGroups | null {
  const sorted = new Float64Array(values).sort()
  const deviations = absoluteDeviations(sorted)
  let at: number | null = null
  let best = deviations(0, sorted.length)
  for (let k = fewest; k <= sorted.length - fewest; k++) {
    if (sorted[k] === sorted[k - 1]) continue
    const both = deviations(0, k) + deviations(k, sorted.length)
    if (both < best) [best, at] = [both, k]
  }
  if (at === null) return null
  const groups = [sorted.slice(0, at), sorted.slice(at)].map(withoutStrays) as [Float64Array, Float64Array]
  const [low, high] = groups
  return {
    border: sorted[at] as number,
    separation: (median(high) - median(low)) / Math.max(...groups.map(standardDeviation)),
    isApart: isWidestGap(sorted, at),
  }
}

/** Whether no wider gap lies between the medians of the two parts than the one at which they are divided. */
function isWidestGap(sorted: Float64Array, at: number): boolean {
  const [low, high] = [median(sorted.slice(0, at)), median(sorted.slice(at))]
  const gapAt = (k: number) => (sorted[k] as number) - (sorted[k - 1] as number)
  return sorted.every(
    (value, k) => k === 0 || (sorted[k - 1] as number) < low || value > high || gapAt(k) <= gapAt(at),
  )
}

function withoutStrays(group: Float64Array): Float64Array {
  const found = robust(group)
  return found.spread === 0 ? group : group.filter((value) => Math.abs(score(value, found)) <= STRAY)
}

function standardDeviation(values: Float64Array): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length)
}

/** The sum of the deviations of the sorted values from `from` to before `to` from their median. */
function absoluteDeviations(sorted: Float64Array): (from: number, to: number) => number {
  const sums = new Float64Array(sorted.length + 1)
  for (let i = 0; i < sorted.length; i++) sums[i + 1] = (sums[i] as number) + (sorted[i] as number)
  const sum = (from: number, to: number) => (sums[to] as number) - (sums[from] as number)
  // Each value of the upper half less its partner in the lower one; the middle of an odd number has none.
  return (from, to) => {
    const half = (to - from) >> 1
    return sum(to - half, to) - sum(from, from + half)
  }
}
