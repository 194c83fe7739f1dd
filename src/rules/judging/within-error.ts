import { DECIDING_SHARE } from '../../measure/schema/confidence.ts'
import { type Limits, sideOf } from '../../numbers/limits.ts'
import { quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'

/** What the page of rules says of the error of a measure. */
export const ERROR_NOTE =
  'Each value has an error, which 95 of 100 true values are within; where a limit is nearer than half of it, the rule is unsure.'

/** How far a value may be from the truth, and how to say so. */
export interface Uncertainty {
  /** To either side, in the unit of the value: 95 of 100 true values are within it. */
  readonly error: number
  readonly unit: string
  /** Where the truth is, in a sentence without its full stop: "The head height is between 41 and 43 % of the frame height". */
  readonly between: (low: number, high: number) => string
}

/**
 * What becomes of a pass or a fail in view of the error: `unsure` where a limit is nearer than `DECIDING_SHARE` of it, a word of
 * warning where it is nearer than all of it, and else as it was.
 * @param asked the limits in words, to stand after "the spec asks for"
 */
export function withinError(
  finding: Finding,
  value: number,
  limits: Limits,
  { error, unit, between }: Uncertainty,
  asked: string,
): Finding {
  const isOpen = (by: number) => sideOf(value - by, limits) !== sideOf(value + by, limits)
  if (!isOpen(error)) return finding
  if (!isOpen(DECIDING_SHARE * error))
    return {
      ...finding,
      reason: `${finding.reason} A limit is within the error of measuring, ${quantity(error, unit)}.`,
    }
  const { fix: _, ...rest } = finding
  return {
    ...rest,
    verdict: 'unsure',
    measured: `about ${finding.measured}`,
    reason: `${between(value - error, value + error)}, as far as can be measured. The spec asks for ${asked}; check by eye.`,
  }
}
