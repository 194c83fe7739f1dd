import { DECIDING_SHARE } from '../../measure/schema/confidence.ts'
import { type Limits, sideOf } from '../../numbers/limits.ts'
import { quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { bandText } from './band.ts'

/** A measured number with its error, and how to write it. */
interface Reading {
  readonly value: number
  /** How far the truth may be to either side, in the unit of the value. */
  readonly error: number
  /** How the sentence begins: "The head height". */
  readonly noun: string
  readonly unit: string
  readonly shortUnit: string
}

/**
 * What becomes of a verdict in view of the error: `unsure` where a limit is nearer than `DECIDING_SHARE` of it, a word of
 * warning where it is nearer than all of it, and else as it was.
 */
export function withinError(finding: Finding, limits: Limits, reading: Reading): Finding {
  const { value, error, noun, unit, shortUnit } = reading
  const isOpen = (by: number) => sideOf(value - by, limits) !== sideOf(value + by, limits)
  if (finding.verdict === 'unsure' || !isOpen(error)) return finding
  if (!isOpen(DECIDING_SHARE * error))
    return {
      ...finding,
      reason: `${finding.reason} A limit is within the error of measuring, ${quantity(error, shortUnit)}.`,
    }
  const { fix: _, ...rest } = finding
  return {
    ...rest,
    verdict: 'unsure',
    measured: `about ${finding.measured}`,
    reason: `${noun} is between ${quantity(value - error, '')} and ${quantity(value + error, unit)}, as far as can be measured. The spec asks for ${bandText(limits, shortUnit)}; check by eye.`,
  }
}
