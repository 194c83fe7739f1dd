import { OUTLIER_SCORE, robust, score } from '../numbers/robust.ts'

export interface Proposal {
  readonly min: number
  readonly max: number
  /** How many values it rests on, and those that were left out since they stand off the others. */
  readonly from: number
  readonly outliers: readonly number[]
}

/** Fewest portraits that a range is proposed from. @choice common practice, no source: fewer say little of what was agreed on. */
export const LEAST = 5

/**
 * Margin on each side of a range, share of the range.
 * @choice a tenth, no source; with it all 60 ranges proposed from 20 drawn deliveries of six hold the truth (tests/derive).
 */
const MARGIN = 0.1

/** What a person would round to, in the unit of the values. @choice common practice, no source: specs are written in halves. */
const STEP = 0.5

/** Digits kept before rounding outwards, so that 13.000000000000002 is 13. @choice three fewer than a double holds. */
const DIGITS = 12

/**
 * A range that the approved values lie in, with a margin for measuring and for the portraits still to come: the error
 * of measuring or {@link MARGIN} of the range, whichever is more, rounded outwards to whole steps.

 * @param least smallest spread that makes a value an outlier
 * @param error of measuring, in the unit of the values
 * @param doubtful values that may be wrong. The portraits are approved all the same, so those in line with the others
 * count: leaving one out at an end of what was agreed on makes the range too narrow
 * @returns null for fewer than 5 values that are not doubtful
 */
export function proposeBand(
  values: readonly number[],
  least: number,
  error: number,
  doubtful: readonly number[] = [],
): Proposal | null {
  if (values.length < LEAST) return null
  const middle = robust(values)
  const all = [...values, ...doubtful]
  const kept = all.filter((value) => Math.abs(score(value, middle, least)) <= OUTLIER_SCORE)
  const outliers = all.filter((value) => !kept.includes(value))
  const low = Math.min(...kept)
  const high = Math.max(...kept)
  const margin = Math.max(error, MARGIN * (high - low))
  return {
    min: roundTo(Math.floor, low - margin),
    max: roundTo(Math.ceil, high + margin),
    from: all.length,
    outliers,
  }
}

function roundTo(round: (value: number) => number, value: number): number {
  return Number((round(Number((value / STEP).toPrecision(DIGITS))) * STEP).toFixed(3))
}
