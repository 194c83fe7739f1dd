import { robust, score } from '../numbers/robust.ts'

export interface Proposal {
  readonly min: number
  readonly max: number
  /** How many values it rests on, and those that were left out since they stand off the others. */
  readonly from: number
  readonly outliers: readonly number[]
}

// Iglewicz and Hoaglin 1993, as in rules/robust.ts.
const OUTLIER = 3.5
// Fewer portraits say little of what was agreed on. Common practice, no source.
export const LEAST = 5

/**
 * A range that the approved values lie in, with a margin for measuring and for the portraits still to come: the error
 * of measuring or a tenth of the range, whichever is more, rounded outwards to whole steps.
 * @param step what a person would round to, in the unit of the values
 * @param least smallest spread that makes a value an outlier
 * @param error of measuring, in the unit of the values
 * @param doubtful values that may be wrong. The portraits are approved all the same, so those in line with the others
 * count: leaving one out at an end of what was agreed on makes the range too narrow
 * @returns null for fewer than 5 values that are not doubtful
 */
export function proposeBand(
  values: readonly number[],
  step: number,
  least: number,
  error: number,
  doubtful: readonly number[] = [],
): Proposal | null {
  if (values.length < LEAST) return null
  const middle = robust(values)
  const all = [...values, ...doubtful]
  const kept = all.filter((value) => Math.abs(score(value, middle, least)) <= OUTLIER)
  const outliers = all.filter((value) => !kept.includes(value))
  const low = Math.min(...kept)
  const high = Math.max(...kept)
  const margin = Math.max(error, 0.1 * (high - low))
  return {
    min: roundTo(Math.floor, low - margin, step),
    max: roundTo(Math.ceil, high + margin, step),
    from: all.length,
    outliers,
  }
}

function roundTo(round: (value: number) => number, value: number, step: number): number {
  return Number((round(Number((value / step).toPrecision(12))) * step).toFixed(3))
}
