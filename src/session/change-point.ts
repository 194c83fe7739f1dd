import { median } from '../numbers/quantile.ts'
import { MAD_TO_SIGMA } from '../numbers/robust.ts'

/** What is known of a kind of value before any is seen, in its unit. */
export interface Expected {
  /** The least lasting shift that is worth a word. */
  readonly least: number
  /** Standard deviation of values in a steady session that is assumed at the least. */
  readonly noise: number
}

/** A level to hold values to, as the mean or median of so many. */
export interface Reference {
  readonly level: number
  readonly of: number
}

/** A lasting shift at the end of a series of values. */
export interface Shift {
  /** Index of the first value that has it. */
  readonly from: number
  readonly by: number
  /** The mean of the values that have it. */
  readonly level: number
}

/** Values that a lasting shift must have before it is told. @choice one or two may be the sitter's own; the third is the next frame */
const TOLD_AFTER = 3

/**
 * Values between two false alarms of a steady series, in the mean, to each side.
 * @choice a thousand sessions of a hundred frames
 */
const FALSE_ALARM_EVERY = 100_000

/** Differences between neighbors from which on their spread is believed. @choice no source: of fewer, half may be chance. */
const FEWEST_DIFFERENCES = 8

/** Values that a level is made up of before others are held to it. @choice the mean of four is half as uncertain as one of them */
const FEWEST_OF_LEVEL = 4

/** Values at the beginning that make up a level at most. @choice later ones may have begun to drift, which a mean that follows would hide */
const LEVEL_OF = 12

/**
 * The shift that a series of values has come to, against the level given or else its own first one, and that is large enough to be told,
 * beyond the error of a level that is given; null when there is none.
 */
export function lastingShift(
  values: readonly number[],
  expected: Expected,
  given: Reference | null = null,
): Shift | null {
  if (values.length === 0) return null
  const sigma = Math.max(expected.noise, spreadOf(values))
  const least = expected.least + (given ? sigma / Math.sqrt(given.of) : 0)
  const starts = levelStarts(values, { least, sigma }, given)
  const levels = starts.map((from, i) => ({ from, mean: mean(values.slice(from, starts[i + 1])) }))
  const isShifted = (level: { readonly from: number; readonly mean: number }) =>
    level.from > 0 && Math.abs(level.mean - mean(values.slice(0, level.from))) >= least
  // What differs by less than is told belongs to the level before.
  const begun = given ? 0 : levels.findIndex(isShifted)
  if (begun < 0) return null
  const shifted = levels.slice(begun)
  const before = given ? given.level : mean(values.slice(0, shifted[0]?.from))
  const last = shifted.at(-1)
  if (!last || Math.abs(last.mean - before) < least) return null
  // What goes on to the same side is one shift, that of its beginning.
  const others = shifted.findLastIndex(
    (level) => Math.abs(level.mean - before) < least / 2 || level.mean > before !== last.mean > before,
  )
  const from = shifted[others + 1]?.from ?? last.from
  if (values.length - from < TOLD_AFTER) return null
  const level = mean(values.slice(from))
  return { from, by: level - before, level }
}

/**
 * Where the levels of a series of values begin, by a cumulative sum to each side (Page, "Continuous inspection schemes", Biometrika 41,
 * 1954), which starts anew at each change. Its reference value is half the shift looked for, at least one standard deviation; the
 * threshold follows from the mean number of values between false alarms. A single value adds less than half of the threshold, so that it
 * takes three, however far off they are. A change is where the sum last left zero.
 */
function levelStarts(
  values: readonly number[],
  { least, sigma }: { readonly least: number; readonly sigma: number },
  given: Reference | null,
): number[] {
  const reference = Math.max(1, least / (2 * sigma))
  const threshold = thresholdFor(reference)
  const most = threshold / (TOLD_AFTER - HAIR)
  const starts = [0]
  let known: number[] = []
  const [up, down] = [new OneSided(), new OneSided()]
  for (const [i, value] of values.entries()) {
    const fixed = starts.length === 1 ? given : null
    if (!fixed && known.length < FEWEST_OF_LEVEL) {
      known.push(value)
      continue
    }
    const { level, of } = fixed ?? { level: mean(known), of: known.length }
    // The level has an error of its own.
    const off = (value - level) / (sigma * Math.sqrt(1 + 1 / of))
    up.add(i, Math.min(most, off - reference))
    down.add(i, Math.min(most, -off - reference))
    const changed = up.sum >= threshold ? up.since : down.sum >= threshold ? down.since : null
    if (changed === null) {
      if (up.sum === 0 && down.sum === 0 && known.length < LEVEL_OF) known.push(value)
      continue
    }
    starts.push(changed)
    known = values.slice(changed, i + 1)
    up.clear()
    down.clear()
  }
  return starts
}

/** Rounding, which must not ask for one value more. @choice far above double precision, far below one value */
const HAIR = 1e-9

class OneSided {
  sum = 0
  /** Index of the first value since the sum was zero. */
  since = 0

  add(index: number, by: number): void {
    if (this.sum === 0) this.since = index
    this.sum = Math.max(0, this.sum + by)
  }

  clear(): void {
    this.sum = 0
  }
}

/** Standard deviation of values around a level that may change, by the median difference between neighbors; 0 of too few. */
function spreadOf(values: readonly number[]): number {
  const apart = values.slice(1).map((value, i) => Math.abs(value - (values[i] ?? value)))
  return apart.length < FEWEST_DIFFERENCES ? 0 : (MAD_TO_SIGMA * median(apart)) / Math.SQRT2
}

/**
 * What a cumulative sum must come to, in standard deviations.
 * @source Siegmund, "Sequential Analysis" (1985), as in Montgomery, "Introduction to Statistical Quality Control", 9.1.3 (from memory): the mean
 *   number of values up to a false alarm is (exp(2 k b) - 2 k b - 1) / (2 k^2), with b the threshold + 1.166
 */
function thresholdFor(k: number): number {
  let b = 1
  for (let i = 0; i < ROUNDS; i++) b = Math.log(2 * k * k * FALSE_ALARM_EVERY + 2 * k * b + 1) / (2 * k)
  return Math.max(LEAST_THRESHOLD, b - OVERSHOOT)
}

/** @choice the sum inside the logarithm hardly matters: two rounds give three digits */
const ROUNDS = 5
/** Mean overshoot at both ends, standard deviations. @source Siegmund (1985), as above */
const OVERSHOOT = 1.166
/** Standard deviations. @choice keeps the sum above zero where the reference value alone rules out a false alarm */
const LEAST_THRESHOLD = 0.5

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
