/** A range, both ends included; infinite where it is open. */
export interface Limits {
  readonly min: number
  readonly max: number
}

/**
 * How far beyond a limit is still inside, in the unit of the value: band ends such as 0.1 + 0.2 must not fail a value that equals them
 * on paper.
 * @choice above double precision for values up to a million, far below what any report shows.
 */
const ROUNDING = 1e-9

/** Limits as JSON can hold them, which has no infinity: an open end is left out. */
export function closedEnds({ min, max }: Limits): { min?: number; max?: number } {
  if (min > -Infinity) return max < Infinity ? { min, max } : { min }
  return max < Infinity ? { max } : {}
}

/** On which side of its limits a value lies. */
export function sideOf(value: number, { min, max }: Limits): 'low' | 'inside' | 'high' {
  if (value < min - ROUNDING) return 'low'
  return value > max + ROUNDING ? 'high' : 'inside'
}
