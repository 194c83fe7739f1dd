import type { Spec } from '../brand-spec/spec.ts'
import type { DeliveryFinding, DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import type { Delivery, DeliveryRule } from '../rules/contract/delivery-rule.ts'
import { OFF } from './judge.ts'
import { type Planned, planDelivery, runs } from './plan.ts'

/** Judges the delivery as a whole: the outcomes of each rule of its plan, in the order of `rules`. */
export function judgeDelivery(
  delivery: Delivery,
  spec: Spec,
  rules: readonly DeliveryRule[],
): DeliveryOutcome[] {
  return planDelivery(delivery, spec, rules).flatMap((planned) => {
    const { rule, advisory } = planned
    const all = [...findings(planned, delivery), ...notJudged(planned, delivery)]
    return all.map((finding) => ({ rule: rule.id, advisory, ...finding }))
  })
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
