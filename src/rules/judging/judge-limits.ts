import { SURE } from '../../measure/schema/confidence.ts'
import type { Doubt } from '../../measure/schema/measurements.ts'
import { closedEnds, type Limits, sideOf } from '../../numbers/limits.ts'
import type { Finding } from '../contract/outcome.ts'
import { doubtSentence } from './doubts.ts'
import { roughly, type Uncertainty, withinError } from './within-error.ts'

/** The same thing in words, once for a column and once for a sentence. */
interface Words {
  readonly short: string
  readonly long: string
}

export interface Question {
  /** How the sentence begins when nothing could be measured: "Headroom", "The eye line". */
  readonly noun: string
  readonly value: number | null
  readonly limits: Limits
  readonly confidence: number
  readonly doubts: readonly Doubt[]
  /** The value in words: "4.1 %" and "Headroom is 4.1 % of the frame height". */
  readonly found: (value: number) => Words
  /** How far the value may be from the truth; absent where its measurement does not say. */
  readonly uncertainty?: Uncertainty
  /** The limits in words, to stand after "the spec asks for". */
  readonly asked: Words
  /** The fix when the value is under the limits, and when it is over them. `by` is the distance to the nearer end. */
  readonly low: (by: number) => string
  readonly high: (by: number) => string
}

/** Judges one number against its limits: unsure first, then fail with the fix, then pass, each as far as its error allows. */
export function judgeLimits(question: Question): Finding {
  const { noun, value, limits, asked, uncertainty } = question
  const expected = asked.short
  const known = value !== null && Number.isFinite(value)
  const sure = question.confidence >= SURE
  if (!known || !sure) {
    return {
      verdict: 'unsure',
      measured: known ? roughly(question.found(value).short) : null,
      expected,
      reason: `${noun} could not be measured with confidence: ${doubtSentence(question.doubts)}. The spec asks for ${asked.long}; check by eye.`,
      ...(known && { figure: { value, ...closedEnds(limits) } }),
    }
  }
  const found = question.found(value)
  const { verdict, fix } = verdictOn(value, question)
  const judged: Finding = {
    measured: found.short,
    expected,
    reason: `${found.long}; the spec asks for ${asked.long}.`,
    figure: { value, ...closedEnds(limits) },
    verdict,
  }
  if (fix !== undefined) judged.fix = fix
  return uncertainty ? withinError(judged, value, limits, uncertainty, asked.long) : judged
}

function verdictOn(value: number, { limits, low, high }: Question): Pick<Finding, 'verdict' | 'fix'> {
  switch (sideOf(value, limits)) {
    case 'low':
      return { verdict: 'fail', fix: low(limits.min - value) }
    case 'high':
      return { verdict: 'fail', fix: high(value - limits.max) }
    case 'inside':
      return { verdict: 'pass' }
  }
}
