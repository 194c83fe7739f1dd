import type { Spec } from '../brand-spec/spec.ts'
import type { Finding, Outcome } from '../rules/contract/outcome.ts'
import type { Rule, Subject } from '../rules/contract/rule.ts'
import { skipped } from '../rules/judging/unmeasured.ts'
import { listed } from '../text/quantity.ts'
import { withoutRepeats } from './causes.ts'
import { withCropAdvice } from './crop-advice.ts'
import { FILE_NAME, type Planned, planFile } from './plan.ts'

/** Judges one file: an outcome for each rule of its plan, in the order of `rules`. */
export function judgeFile(subject: Subject, spec: Spec, rules: readonly Rule[]): Outcome[] {
  const file = { name: subject.name, readable: subject.measured.fault === null }
  const plan = planFile(file, spec, rules)
  const nameFails = () => plan.some((planned) => planned.rule.id === FILE_NAME && fails(planned, subject))
  const outcomes = plan.map((planned): Outcome => {
    const { rule, advisory } = planned
    return { rule: rule.id, advisory, ...findingOf(planned, subject, nameFails) }
  })
  return withCropAdvice(withoutRepeats(outcomes, subject.measured, plan), subject.measured, plan)
}

function fails(planned: Planned<Rule>, subject: Subject): boolean {
  return (
    !planned.advisory && findingOf(planned, { ...subject, isTogether: false }, () => false).verdict === 'fail'
  )
}

/** @param nameFails whether the rule on names fails the file; asked for a file that has no place alone */
function findingOf(
  { rule, application }: Planned<Rule>,
  subject: Subject,
  nameFails: () => boolean,
): Finding {
  switch (application.kind) {
    case 'judge':
      return rule.judge(subject, application.options)
    case 'guard': {
      const finding = rule.judge(subject, application.options)
      return finding.verdict === 'fail' ? finding : OFF
    }
    case 'off':
      return OFF
    case 'elsewhere':
      return skipped(`The spec asks for this only in ${listed(application.deliverables)}.`)
    case 'unplaced':
      return unplaced(application.deliverables, nameFails())
  }
}

export const OFF = skipped('Switched off in the spec.')

/** For a rule that some deliverables are to meet, on a file whose name does not tell whether it belongs to one. */
function unplaced(deliverables: readonly string[], nameFails: boolean): Finding {
  const reason = `The spec asks for this only in ${listed(deliverables)}, and the file name does not give the deliverable`
  if (nameFails) return skipped(`${reason}; see file-name.`)
  return { verdict: 'unsure', measured: null, expected: null, reason: `${reason}; check by eye.` }
}
