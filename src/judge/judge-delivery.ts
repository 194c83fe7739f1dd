import type { Spec } from '../brand-spec/spec.ts'
import type { DeliveryFinding, DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import type { Delivery, DeliveryRule } from '../rules/contract/delivery-rule.ts'
import type { Rule } from '../rules/contract/rule.ts'
import { OFF } from './judge.ts'
import { type Planned, planDelivery, planFile, runs } from './plan.ts'

/**
 * Judges the delivery as a whole: what rules on files say once of several, then the outcomes of each rule of its plan, in
 * the order of `rules`.
 * @param fileRules rules on single files
 */
export function judgeDelivery(
  delivery: Delivery,
  spec: Spec,
  rules: readonly DeliveryRule[],
  fileRules: readonly Rule[] = [],
): DeliveryOutcome[] {
  const together = fileRules.flatMap((rule) => judgeTogether(rule, delivery, spec))
  const whole = planDelivery(delivery, spec, rules).flatMap((planned) => {
    const { rule, advisory } = planned
    const all = [...findings(planned, delivery), ...notJudged(planned, delivery)]
    return all.map(({ warns = false, ...finding }) => ({
      ...{ rule: rule.id, advisory: advisory || warns },
      ...finding,
    }))
  })
  return [...together, ...whole]
}

function judgeTogether(rule: Rule, { files }: Delivery, spec: Spec): DeliveryOutcome[] {
  const { together } = rule
  if (!together) return []
  const alone = [rule]
  const planned = files.flatMap((subject) => {
    const readable = subject.measured.fault === null
    const [one] = planFile({ name: subject.name, readable }, spec, alone)
    return one && runs(one) ? [{ subject, options: one.application.options, advisory: one.advisory }] : []
  })
  const advisory = planned.every((one) => one.advisory)
  return together(planned).map((finding) => ({ rule: rule.id, advisory, ...finding }))
}

/** What the rules of its plan can't tell of a delivery of which only a part is there. */
export function untoldByPart(delivery: Delivery, spec: Spec, rules: readonly DeliveryRule[]): string[] {
  const running = planDelivery(delivery, spec, rules).filter(runs)
  return running.flatMap(({ rule }) => (delivery.partial ? (rule.needsWhole(delivery) ?? []) : []))
}

function notJudged(planned: Planned<DeliveryRule>, delivery: Delivery): DeliveryFinding[] {
  const what = delivery.partial && runs(planned) ? planned.rule.needsWhole(delivery) : null
  if (what === null) return []
  const reason = `Only a part of the delivery was checked, so it was not judged ${what}.`
  return [{ people: [], files: [], verdict: 'skip', measured: null, expected: null, reason }]
}

function findings(planned: Planned<DeliveryRule>, delivery: Delivery): readonly DeliveryFinding[] {
  const all = { people: [], files: [] }
  if (!runs(planned)) return [{ ...all, ...OFF }]
  const found = planned.rule.judge(delivery, planned.application.options)
  if (found.length > 0 || (delivery.partial && planned.rule.needsWhole(delivery) !== null)) return found
  const reason = 'There was nothing to judge this by; check by eye.'
  return [{ ...all, verdict: 'unsure', measured: null, expected: null, reason }]
}
