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
    return findings(planned, delivery).map((finding) => ({ rule: rule.id, advisory, ...finding }))
  })
}

function findings(planned: Planned<DeliveryRule>, delivery: Delivery): readonly DeliveryFinding[] {
  const all = { people: [], files: [] }
  if (!runs(planned)) return [{ ...all, ...OFF }]
  const found = planned.rule.judge(delivery, planned.application.options)
  if (found.length > 0) return found
  const reason = 'There was nothing to judge this by; check by eye.'
  return [{ ...all, verdict: 'unsure', measured: null, expected: null, reason }]
}
