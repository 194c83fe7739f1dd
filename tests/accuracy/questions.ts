import type { DecodedPicture } from '../../src/measure/file/decoded-picture.ts'
import { measurePicture, type PictureMeasurements } from '../../src/measure/picture.ts'
import type { MeasurementGroup, Measurements } from '../../src/measure/schema/measurements.ts'
import { knownOf } from '../../src/measure/schema/unmeasured.ts'
import type { Rule } from '../../src/rules/contract/rule.ts'
import type { Judged } from './judged.ts'

/** A rule with options, and what the truth says to them. */
export interface Question {
  readonly measure: string
  readonly rule: Rule
  readonly options: unknown
  readonly should: Judged['should']
  /** Measured less true. */
  readonly error?: (measured: PictureMeasurements) => number | null
}

export interface Answers {
  readonly judged: readonly Judged[]
  readonly found: PictureMeasurements
}

// In % of the frame height, L*, % of lens or skin, stops, degrees and px at 240 px inter-eye distance. The share of clipped
// pixels in so small a sample as a face is itself known to about 0.3 % (binomial).
const NEGLIGIBLE: Readonly<Record<string, number>> = {
  headroom: 0.1,
  'eye-line': 0.1,
  'head-height': 0.2,
  'background-lightness': 0.2,
  'background-unevenness': 0.2,
  'lens-glare': 0.5,
  'clipping, highlights': 0.3,
  'clipping, shadows': 0.3,
  'key-side': 0.05,
  'facing, turn': 1,
  'facing, nod': 1,
  'eye-focus': 0.1,
  'eye-focus, few pixels': 0.1,
}

/** Measures a picture once and puts the questions to it. */
export async function ask(
  name: string,
  groups: readonly string[],
  picture: DecodedPicture,
  needs: readonly MeasurementGroup[],
  questions: readonly Question[],
): Promise<Answers> {
  const found = await measurePicture(picture, needs)
  const measured: Measurements = {
    ...knownOf(name),
    bytes: 0,
    fault: null,
    widthPx: picture.width,
    heightPx: picture.height,
    ...found,
  }
  const path = { path: name, pattern: '', fields: {}, deliverable: null, problems: [] }
  const judged = questions.map(({ measure, rule, options, should, error }): Judged => {
    const negligible = NEGLIGIBLE[measure]
    if (negligible === undefined) throw new Error(`It is not said which errors of ${measure} matter.`)
    const { verdict } = rule.judge({ measured, name: path }, options)
    return { measure, groups, should, verdict, error: error?.(found) ?? null, negligible }
  })
  return { judged, found }
}

/** Two questions on a number: a band about the truth, which it is in, and one beside it, which it is not. */
export function aboutNumber(
  measure: string,
  rule: Rule,
  truth: number,
  within: number,
  value: (measured: PictureMeasurements) => number | null | undefined,
): Question[] {
  const error = (measured: PictureMeasurements) => {
    const found = value(measured)
    return found === null || found === undefined ? null : found - truth
  }
  return [
    { measure, rule, options: { min: truth - within, max: truth + within }, should: 'pass', error },
    { measure, rule, options: { min: truth + within, max: truth + 3 * within }, should: 'fail' },
  ]
}
