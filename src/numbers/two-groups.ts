import { type Robust, robust } from './robust.ts'

/** Values in two groups: every one below `border` is in the lower group. */
export interface TwoGroups {
  readonly border: number
  readonly low: Robust
  readonly high: Robust
  /** How far apart the two medians are, in spreads of the wider group. */
  readonly separation: number
}

/**
 * The values divided into two groups so that they lie as close to the median of their own as can be: the best split of one dimension
 * by k-medians.
 * @param fewest values that a group must have, 1 or more
 * @param least smallest spread assumed of a group, in the unit of the values
 * @returns null where there are too few values, or all are equal
 * @source Bradley, Mangasarian and Street, "Clustering via Concave Minimization", NIPS 9 (1997), for k-medians.
 */
export function twoGroups(values: readonly number[], fewest: number, least: number): TwoGroups | null {
  const sorted = [...values].sort((a, b) => a - b)
  const deviations = absoluteDeviations(sorted)
  let at: number | null = null
  let best = deviations(0, sorted.length)
  for (let k = fewest; k <= sorted.length - fewest; k++) {
    if (sorted[k] === sorted[k - 1]) continue
    const both = deviations(0, k) + deviations(k, sorted.length)
    if (both < best) [best, at] = [both, k]
  }
  if (at === null) return null
  const [low, high] = [robust(sorted.slice(0, at)), robust(sorted.slice(at))]
  return {
    border: sorted[at] as number,
    low,
    high,
    separation: (high.median - low.median) / Math.max(low.spread, high.spread, least),
  }
}

/** The sum of the deviations of the sorted values from `from` to before `to` from their median. */
function absoluteDeviations(sorted: readonly number[]): (from: number, to: number) => number {
  const sums = [0]
  for (const value of sorted) sums.push((sums.at(-1) as number) + value)
  const sum = (from: number, to: number) => (sums[to] as number) - (sums[from] as number)
  return (from, to) => {
    const lower = from + ((to - from) >> 1)
    // Of an even number of values the middle two cancel out; of an odd one the median itself does.
    return sum(to - (lower - from), to) - sum(from, lower)
  }
}
