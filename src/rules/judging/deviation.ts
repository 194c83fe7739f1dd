import { type Static, Type } from '@sinclair/typebox'
import type { Limits } from '../../numbers/limits.ts'
import { asked, quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { limitsOf } from './band.ts'
import { judgeLimits, type Question } from './judge-limits.ts'
import type { Uncertainty } from './within-error.ts'

const closed = { additionalProperties: false }

/** Options of a rule on a value with a sign (left or right, clockwise or not): at most so much to either side. */
export const Deviation = Type.Union(
  [
    Type.Object({ max: Type.Number({ minimum: 0 }) }, closed),
    Type.Object({ target: Type.Number(), tolerance: Type.Number({ minimum: 0 }) }, closed),
  ],
  { description: 'At most `max` to either side of zero, or within `tolerance` of `target`.' },
)
export type Deviation = Static<typeof Deviation>

export function deviationLimits(deviation: Deviation): Limits {
  if ('target' in deviation) return limitsOf(deviation)
  return { min: -deviation.max, max: deviation.max }
}

export interface DeviationQuestion extends Omit<Question, 'found' | 'asked' | 'limits' | 'uncertainty'> {
  readonly deviation: Deviation
  /** How far the value may be off to either side, in its unit (95 of 100). */
  readonly error?: number | null
  /** " % of the frame width", "°"; and the short one for limits and columns. */
  readonly unit: string
  readonly shortUnit: string
  /** The value in words, from its size and sign: "4.1° clockwise"; "level" for sign 0. */
  readonly place: (size: string, sign: Sign) => string
  /** The place in a sentence without its full stop: "The eye line is tilted 4.1° clockwise". */
  readonly sentence: (place: string, sign: Sign) => string
  /** How both sides are called together: "to either side", "either way". */
  readonly either: string
}

type Sign = -1 | 0 | 1

/** Judges one signed number, with its direction in words. */
export function judgeDeviation(question: DeviationQuestion): Finding {
  const { noun, value, confidence, doubts, low, high } = question
  const { deviation, unit, shortUnit, place, either, error } = question
  const limits = deviationLimits(deviation)
  const placed = (number: string) => place(sizeOf(number), signOf(number))
  const longFor = (number: string) => question.sentence(placed(number), signOf(number))
  const text =
    'max' in deviation
      ? `at most ${asked(deviation.max, shortUnit)} ${either}`
      : `${placed(asked(deviation.target, shortUnit))}, give or take ${asked(deviation.tolerance, shortUnit)}`
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
      short: placed(quantity(value, shortUnit, limits)),
      long: longFor(quantity(value, unit, limits)),
    }),
    ...(error && { uncertainty: { error, unit: shortUnit, between: betweenFor(question) } }),
  })
}

/** "The eye line is tilted between 2.1 and 4.3° clockwise", or with both directions where it may be either. */
function betweenFor({ unit, place, sentence }: DeviationQuestion): Uncertainty['between'] {
  return (low, high) => {
    const ends = [low, high].map((end) => quantity(end, unit))
    const [left, right] = ends.map(signOf) as [Sign, Sign]
    const [size, more] = left < 0 ? [high, low] : [low, high]
    if (left === right)
      return sentence(
        place(`between ${quantity(Math.abs(size), '')} and ${quantity(Math.abs(more), unit)}`, left),
        left,
      )
    const [from, to] = ends.map((end) => place(sizeOf(end), signOf(end)))
    return sentence(`between ${from} and ${to}`, 0)
  }
}

function sizeOf(number: string): string {
  return number.startsWith('-') ? number.slice(1) : number
}

/** Sign of a number as it is written, so that "0 %" is neither left nor right. */
function signOf(number: string): Sign {
  const value = Number.parseFloat(number)
  if (value === 0) return 0
  return value < 0 ? -1 : 1
}
