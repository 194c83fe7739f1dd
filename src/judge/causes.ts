import type { Measurements } from '../measure/schema/measurements.ts'
import type { SettledCause } from '../rules/contract/delivery-rule.ts'
import type { Outcome, Verdict } from '../rules/contract/outcome.ts'
import type { Rule } from '../rules/contract/rule.ts'
import { skipped } from '../rules/judging/unmeasured.ts'
import { isBeforePlace, isColorless, isFaceless, isHeadCut } from '../rules/judging/unseen.ts'
import { type Planned, runs } from './plan.ts'

/** Something wrong with a picture that leaves several rules without an answer, and that one rule reports for all of them. */
interface Cause {
  readonly id: SettledCause
  /** The rule that reports it, where it runs and is not merely advisory. */
  readonly rule: string
  readonly shows: (measured: Measurements) => boolean
  /** Whether it is what lies behind this verdict of another rule. */
  readonly explains: (rule: Rule, verdict: Verdict) => boolean
  readonly reason: string
  /** Set where the spec may allow it: then a pass settles it too. A text is the reason why other rules then leave the picture out. */
  readonly mayPass?: true | string
}

const CAUSES: readonly Cause[] = [
  {
    id: 'no-face',
    rule: 'one-face',
    shows: isFaceless,
    // Without a face nothing sets the sitter apart from what stands before the backdrop.
    explains: ({ needs }, verdict) =>
      verdict === 'unsure' && (needs.includes('face') || needs.includes('background')),
    reason: 'No face was found to judge this by; see one-face.',
  },
  {
    id: 'not-plain',
    rule: 'background-plain',
    shows: isBeforePlace,
    explains: ({ needs }, verdict) =>
      verdict === 'unsure' && needs.includes('background') && !needs.includes('head'),
    reason: 'The backdrop is not plain; see background-plain.',
    mayPass: 'The backdrop is not plain, which the spec allows.',
  },
  {
    id: 'head-cut',
    rule: 'headroom',
    shows: isHeadCut,
    explains: ({ needs }, verdict) => verdict === 'unsure' && needs.includes('head'),
    reason: 'The top edge of the frame cuts the head; see headroom.',
  },
  {
    id: 'no-color',
    rule: 'color-space',
    shows: isColorless,
    // The color of a backdrop without color, and reflections that only the color of skin sets apart.
    explains: ({ id }, verdict) =>
      (verdict === 'fail' && id === 'background-tint') || (verdict === 'unsure' && id === 'lens-glare'),
    reason: 'The picture has no color; see color-space.',
    mayPass: true,
  },
]

/** The outcomes of a file, with one finding for each cause: where another rule reports the cause, an outcome is skipped. */
export function withoutRepeats(
  outcomes: readonly Outcome[],
  measured: Measurements,
  plan: readonly Planned<Rule>[],
): Outcome[] {
  const causes = CAUSES.flatMap((cause): Cause[] => {
    if (isReported(cause, outcomes, measured)) return [cause]
    const { mayPass } = cause
    return typeof mayPass === 'string' && isAllowed(cause, outcomes, measured)
      ? [{ ...cause, reason: mayPass }]
      : []
  })
  if (causes.length === 0) return [...outcomes]
  const rules = new Map(plan.filter(runs).map(({ rule }) => [rule.id, rule]))
  return outcomes.map((outcome) => {
    const rule = rules.get(outcome.rule)
    const cause = rule && causes.find((one) => one.rule !== rule.id && one.explains(rule, outcome.verdict))
    return cause ? { rule: rule.id, advisory: outcome.advisory, ...skipped(cause.reason) } : outcome
  })
}

/** The causes that the outcomes of a file report, or let pass as the spec allows: no rule over the delivery need report them. */
export function settledCauses(outcomes: readonly Outcome[], measured: Measurements): SettledCause[] {
  return CAUSES.filter(
    (cause) => isReported(cause, outcomes, measured) || isAllowed(cause, outcomes, measured),
  ).map(({ id }) => id)
}

/** A mere warning settles nothing: what it leaves unknown would pass. */
function isReported({ rule, shows }: Cause, outcomes: readonly Outcome[], measured: Measurements): boolean {
  if (!shows(measured)) return false
  const found = outcomes.find((outcome) => outcome.rule === rule)
  if (!found || found.advisory) return false
  return found.verdict === 'fail' || found.verdict === 'unsure'
}

function isAllowed(
  { rule, shows, mayPass }: Cause,
  outcomes: readonly Outcome[],
  measured: Measurements,
): boolean {
  if (mayPass === undefined || !shows(measured)) return false
  return outcomes.some((outcome) => outcome.rule === rule && outcome.verdict === 'pass')
}
