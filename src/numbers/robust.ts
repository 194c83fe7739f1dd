/**
 * Median and spread that a few outliers do not move. The spread is the median absolute deviation from the median times
 * 1.4826, which is the standard deviation for normal values (Rousseeuw and Hubert, "Robust statistics for outlier
 * detection", WIREs Data Mining and Knowledge Discovery 1(1), 2011).
 */
export interface Robust {
  readonly median: number
  readonly spread: number
}

const MAD_TO_SIGMA = 1.4826

/** @throws RangeError for an empty list */
export function robust(values: readonly number[]): Robust {
  const middle = medianOf(values)
  return { median: middle, spread: MAD_TO_SIGMA * medianOf(values.map((value) => Math.abs(value - middle))) }
}

/** Mean of the two middle values when there is an even number of them. @throws RangeError for an empty list */
export function medianOf(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError('There is no median of no values.')
  const sorted = [...values].sort((a, b) => a - b)
  const half = sorted.length >> 1
  const upper = sorted[half] as number
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[half - 1] as number)) / 2
}

/**
 * How far a value stands off, in spreads: the modified z-score of Iglewicz and Hoaglin, "How to Detect and Handle
 * Outliers" (ASQC, 1993), cited in the NIST/SEMATECH e-Handbook, 1.3.5.17; they call values beyond 3.5 outliers.
 * @param least smallest spread assumed, so that equal values do not make a difference that nobody sees an outlier
 */
export function score(value: number, { median, spread }: Robust, least = 0): number {
  const off = value - median
  const unit = Math.max(spread, least)
  if (unit === 0) return off === 0 ? 0 : Math.sign(off) * Infinity
  return off / unit
}
