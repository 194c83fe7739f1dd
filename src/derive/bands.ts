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

/** An approved value, and how far the truth may be to either side of it. */
interface Approved {
  readonly value: number
  readonly error: number
}

/**
 * A range that the approved values lie in, with a margin for measuring and for the portraits still to come: the error
 * of each value or {@link MARGIN} of the range, whichever is more, rounded outwards to whole steps.

 * @param least smallest spread that makes a value an outlier
 * @param doubtful values that may be wrong. The portraits are approved all the same, so those in line with the others
 * count: leaving one out at an end of what was agreed on makes the range too narrow
 * @returns null for fewer than 5 values that are not doubtful
 */
export function proposeBand(
  approved: readonly Approved[],
  least: number,
  doubtful: readonly Approved[] = [],
): Proposal | null {
  if (approved.length < LEAST) return null
  const middle = robust(approved.map(({ value }) => value))
  const all = [...approved, ...doubtful]
  const isKept = ({ value }: Approved) => Math.abs(score(value, middle, least)) <= OUTLIER_SCORE
  const kept = all.filter(isKept)
  const values = kept.map(({ value }) => value)
  const margin = MARGIN * (Math.max(...values) - Math.min(...values))
  const ends = (side: -1 | 1) => kept.map(({ value, error }) => value + side * Math.max(error, margin))
  return {
    min: roundTo(Math.floor, Math.min(...ends(-1))),
    max: roundTo(Math.ceil, Math.max(...ends(1))),
    from: all.length,
    outliers: all.filter((one) => !isKept(one)).map(({ value }) => value),
  }
}

function roundTo(round: (value: number) => number, value: number): number {
  return Number((round(Number((value / STEP).toPrecision(DIGITS))) * STEP).toFixed(3))
}
