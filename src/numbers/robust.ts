import { median } from './quantile.ts'

/** Median and spread that a few outliers do not move. The spread is {@link MAD_TO_SIGMA} times the median absolute deviation. */
export interface Robust {
  readonly median: number
  readonly spread: number
}

/**
 * What turns a median absolute deviation from the median (MAD) into the standard deviation of normal values.
 * @source Rousseeuw and Hubert, "Robust statistics for outlier detection", WIREs Data Mining and Knowledge Discovery 1(1),
 *   2011; 1 / 0.6745, the third quartile of the normal distribution.
 */
export const MAD_TO_SIGMA = 1.4826

/** @throws RangeError for an empty list */
export function robust(values: readonly number[] | Float64Array): Robust {
  const middle = median(values)
  const deviations = new Float64Array(values).map((value) => Math.abs(value - middle))
  return { median: middle, spread: MAD_TO_SIGMA * median(deviations) }
}

/**
 * Modified z-score beyond which a value is an outlier.
 * @source Iglewicz and Hoaglin, "How to Detect and Handle Outliers" (ASQC, 1993), cited in the NIST/SEMATECH e-Handbook, 1.3.5.17.
 */
export const OUTLIER_SCORE = 3.5

/**
 * How far a value stands off, in spreads: the modified z-score of Iglewicz and Hoaglin (see {@link OUTLIER_SCORE}).
 * @param least smallest spread assumed, so that equal values do not make a difference that nobody sees an outlier
 */
export function score(value: number, { median, spread }: Robust, least = 0): number {
  const off = value - median
  const unit = Math.max(spread, least)
  if (unit === 0) return off === 0 ? 0 : Math.sign(off) * Infinity
  return off / unit
}
