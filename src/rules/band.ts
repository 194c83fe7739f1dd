import { type Static, Type } from '@sinclair/typebox'
import type { Doubt } from '../measure/measurements.ts'
import { doubtSentence } from './doubts.ts'
import type { Finding } from './outcome.ts'
import { quantity } from './quantity.ts'

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

/** Options of a rule on a value with a sign (left or right, clockwise or not): at most so much to either side. */
export const Deviation = Type.Union(
  [
    Type.Object({ max: Type.Number({ minimum: 0 }) }, closed),
    Type.Object({ target: Type.Number(), tolerance: Type.Number({ minimum: 0 }) }, closed),
  ],
  { description: 'At most `max` to either side of zero, or within `tolerance` of `target`.' },
)
export type Deviation = Static<typeof Deviation>

export interface Limits {
  readonly min: number
  readonly max: number
}

export function limitsOf(band: Band): Limits {
  if ('target' in band) return { min: band.target - band.tolerance, max: band.target + band.tolerance }
  return { min: 'min' in band ? band.min : -Infinity, max: 'max' in band ? band.max : Infinity }
}

export function deviationLimits(deviation: Deviation): Limits {
  if ('target' in deviation) return limitsOf(deviation)
  return { min: -deviation.max, max: deviation.max }
}

/** Confidence from which a measured value may decide pass or fail; below it a person must look. */
export const SURE = 0.5

// Band ends such as 0.1 + 0.2 must not fail a value that equals them on paper.
const ROUNDING = 1e-9

export interface BandQuestion {
  /** How a sentence begins: "Headroom", "The eye line". */
  readonly noun: string
  /** Written after each number: " % of the frame height", " L*", "°". */
  readonly unit: string
  /** Unit in the short columns, when the long one reads badly there. */
  readonly shortUnit?: string
  readonly value: number | null
  readonly limits: Limits
  readonly confidence: number
  readonly doubts: readonly Doubt[]
  /** The mend when the value is under the band, and when it is over it. `by` is the distance to the nearer end. */
  readonly low: (by: number) => string
  readonly high: (by: number) => string
}

/** Judges one number against its band: unsure first, then fail with the mend, then pass. */
export function judgeBand(question: BandQuestion): Finding {
  const { noun, unit, value, limits } = question
  const shortUnit = question.shortUnit ?? unit
  const asked = bandText(limits, unit)
  const expected = bandText(limits, shortUnit)
  if (value === null || question.confidence < SURE) {
    return {
      verdict: 'unsure',
      measured: value === null ? null : `about ${quantity(value, shortUnit)}`,
      expected,
      reason: `${noun} could not be measured with confidence: ${doubtSentence(question.doubts)}. The spec asks for ${asked}; have a person look.`,
    }
  }
  const low = value < limits.min - ROUNDING
  const high = value > limits.max + ROUNDING
  const near = low ? limits.min : high ? limits.max : undefined
  const measured = quantity(value, shortUnit, near)
  const sentence = `${noun} is ${quantity(value, unit, near)}; the spec asks for ${asked}.`
  if (low)
    return { verdict: 'fail', measured, expected, reason: sentence, remedy: question.low(limits.min - value) }
  if (high)
    return {
      verdict: 'fail',
      measured,
      expected,
      reason: sentence,
      remedy: question.high(value - limits.max),
    }
  return { verdict: 'pass', measured, expected, reason: sentence }
}

function bandText({ min, max }: Limits, unit: string): string {
  if (min === -Infinity) return `at most ${quantity(max, unit)}`
  if (max === Infinity) return `at least ${quantity(min, unit)}`
  if (min === -max) return `within ±${quantity(max, unit)}`
  return `${quantity(min, '')} to ${quantity(max, unit)}`
}
