import type { Measurements } from '../measure/schema/measurements.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import type { Rule } from '../rules/contract/rule.ts'
import { isFaceless } from '../rules/judging/faceless.ts'
import { skipped } from '../rules/judging/unmeasured.ts'
import { type Planned, runs } from './plan.ts'

/** The rule that tells when a picture has no face. */
export const ONE_FACE = 'one-face'

/** Leaves it to `one-face`, where that runs, to say that a picture has no face: no other rule is unsure for that reason. */
export function leftToOneFace(
  outcomes: readonly Outcome[],
  measured: Measurements,
  plan: readonly Planned<Rule>[],
): Outcome[] {
  const told = outcomes.some(
    ({ rule, verdict }) => rule === ONE_FACE && verdict !== 'pass' && verdict !== 'skip',
  )
  if (!told || !isFaceless(measured)) return [...outcomes]
  const needing = new Set(
    plan.filter(runs).flatMap(({ rule }) => (rule.needs.includes('face') ? [rule.id] : [])),
  )
  return outcomes.map((outcome) =>
    outcome.rule !== ONE_FACE && outcome.verdict === 'unsure' && needing.has(outcome.rule)
      ? { rule: outcome.rule, advisory: outcome.advisory, ...NO_FACE }
      : outcome,
  )
}

const NO_FACE = skipped('No face was found to judge this by; one-face says so.')
