import { DECIDING_SHARE } from '../../measure/schema/confidence.ts'
import { type Limits, sideOf } from '../../numbers/limits.ts'
import type { Finding } from '../contract/outcome.ts'

/** What the page of rules says of the error of a measure. */
export const ERROR_NOTE =
  'Each value comes with an error that covers 95 of 100 true values; where a limit is nearer than half of that error, the rule is unsure.'

/** What was measured without confidence: "about 4.1 %", "probably flat light". */
export function roughly(measured: string): string {
  return `${/^-?\d/.test(measured) ? 'about' : 'probably'} ${measured}`
}

/** How far a value may be from the truth, and how to say so. */
export interface Uncertainty {
  /** To either side, in the unit of the value: 95 of 100 true values are within it. */
  readonly error: number
  readonly unit: string
  /** Where the truth is, in a sentence without its full stop: "The head height is between 41 and 43 % of the frame height". */
  readonly between: (low: number, high: number) => string
  /** What to do about it, to stand after "check by eye". */
  readonly eye?: string
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
  { error, unit, between, eye = '' }: Uncertainty,
  asked: string,
): Finding {
  const isOpen = (by: number) => sideOf(value - by, limits) !== sideOf(value + by, limits)
  if (!isOpen(error)) return finding
  if (!isOpen(DECIDING_SHARE * error))
    return {
      ...finding,
      reason: `${finding.reason} That is close to a limit: the measurement may be off by ${Number(error.toPrecision(2))}${unit}.`,
    }
  const { fix: _, ...rest } = finding
  return {
    ...rest,
    verdict: 'unsure',
    measured: roughly(finding.measured ?? ''),
    reason: `${between(value - error, value + error)}, as far as can be measured. The spec asks for ${asked}; check by eye${eye}.`,
  }
}
