import { type Static, Type } from '@sinclair/typebox'
import type { Limits } from '../../numbers/limits.ts'
import { asked, quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { judgeLimits, type Question } from './judge-limits.ts'

const closed = { additionalProperties: false }

/** Options of a rule that asks a number to lie in a range, both ends included. */
export const Band = Type.Union(
  [
    Type.Object({ min: Type.Number(), max: Type.Number() }, closed),
    Type.Object({ min: Type.Number() }, closed),
    Type.Object({ max: Type.Number() }, closed),
    Type.Object({ target: Type.Number(), tolerance: Type.Number({ minimum: 0 }) }, closed),
  ],
  { description: 'A range, ends included: { min, max }, one of the two alone, or { target, tolerance }.' },
)
export type Band = Static<typeof Band>

export function limitsOf(band: Band): Limits {
  if ('target' in band) return { min: band.target - band.tolerance, max: band.target + band.tolerance }
  return { min: 'min' in band ? band.min : -Infinity, max: 'max' in band ? band.max : Infinity }
}

/** A sentence when no value can lie in the range, else null. */
export function emptyRange({ min, max }: Limits): string | null {
  return min > max ? `min is ${asked(min)} and max is ${asked(max)}, so nothing fits; swap them.` : null
}

/** A sentence when no value can lie in a range of the frame's height, or when it ends below 1 %, as shares do; else null. */
export function unfitPercent(limits: Limits): string | null {
  const { max } = limits
  if (max <= 0 || max >= 1) return emptyRange(limits)
  const meant = asked(100 * max)
  return `the limits are in percent, and ${asked(max)} % is next to nothing; for ${meant} % write ${meant}.`
}

export interface BandQuestion extends Omit<Question, 'found' | 'asked' | 'uncertainty'> {
  /** How far the value may be off to either side, in its unit (95 of 100). */
  readonly error?: number | null
  /** Written after the measured number in the sentence: " % of the frame height", " L*". */
  readonly unit: string
  /** Unit of the limits and in short columns, when the long one reads badly there. */
  readonly shortUnit?: string
}

/** Judges one number against its band. */
export function judgeBand(question: BandQuestion): Finding {
  const { noun, value, unit, limits, error, confidence, doubts, low, high } = question
  const shortUnit = question.shortUnit ?? unit
  const text = bandText(limits, shortUnit)
  return judgeLimits({
    noun,
    value,
    limits,
    confidence,
    doubts,
    low,
    high,
    asked: { short: text, long: text },
    found: (value) => ({
      short: quantity(value, shortUnit, limits),
      long: `${noun} is ${quantity(value, unit, limits)}`,
    }),
    ...(error && {
      uncertainty: {
        error,
        unit: shortUnit,
        between: (low: number, high: number) =>
          `${noun} is between ${quantity(low, '')} and ${quantity(high, unit)}`,
      },
    }),
  })
}

/** A range in words: "6 to 12 %", "at least 300 px", "at most 4 L*", "2400 px". */
export function bandText({ min, max }: Limits, unit: string): string {
  if (min === max) return asked(max, unit)
  if (min === -Infinity) return `at most ${asked(max, unit)}`
  if (max === Infinity) return `at least ${asked(min, unit)}`
  return `${asked(min)} to ${asked(max, unit)}`
}
