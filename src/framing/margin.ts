import type { Limits } from '../numbers/limits.ts'

/**
 * By how much a cropped picture may measure otherwise than its crop was computed, in percent of its height (centering:
 * of its width).
 * @tuned on 27 drawn sitters and 26 photographs measured before and after cropping to 55 to 95 % of the frame: the larger 95th percentiles were
 * 0.30, 0.11, 0.26 and 0.09, rounded up here.
 */
export const MARGIN_PCT = {
  headroom: 0.3,
  'eye-line': 0.15,
  'head-height': 0.3,
  centering: 0.1,
} as const
export type Banded = keyof typeof MARGIN_PCT

/** The same for the edge of an intrusion, in percent of the frame's longer edge. @choice as for the headroom: it is found as the crown is. */
export const INTRUSION_MARGIN_PCT = 0.3

/** How much of a narrow band stays free of margins and errors at least, share of the band. @choice half, no source. */
export const FREE = 0.5

/** What a limit forgives, %: one that is met on paper is met in floats. @choice half of what the rules themselves forgive (numbers/limits.ts). */
const ROUNDING = 5e-10

/**
 * A rule's limits in percent as shares of the crop, narrowed on both sides by its margin.
 * @param kept how much of the margin is kept, 0..1
 */
export function sharesOf(rule: Banded, { min, max }: Limits, kept: number): Limits {
  const margin = kept * Math.min(MARGIN_PCT[rule], Math.max(0, ((1 - FREE) * (max - min)) / 2))
  return { min: (min + margin - ROUNDING) / 100, max: (max - margin + ROUNDING) / 100 }
}
