import type { Spec } from '../brand-spec/spec.ts'
import type { DeliveryFinding, DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import type { Delivery, DeliveryRule } from '../rules/contract/delivery-rule.ts'
import { skipped } from '../rules/judging/unmeasured.ts'

/**
 * Judges the delivery as a whole: the outcomes of each rule that the spec names, and of those that run unasked; in
 * the order of `rules`. Rules that nobody asks for have no outcome.
 */
export function judgeDelivery(
  delivery: Delivery,
  spec: Spec,
  rules: readonly DeliveryRule[],
): DeliveryOutcome[] {
  return rules.flatMap((rule) => {
    const setting = Object.hasOwn(spec.settings, rule.id) ? spec.settings[rule.id] : undefined
    const options = setting ?? rule.unasked(delivery)
    if (options === null || options === undefined) return []
    const advisory = spec.advisory.includes(rule.id)
    return findings(rule, delivery, options).map((finding) => ({ rule: rule.id, advisory, ...finding }))
  })
}

function findings(rule: DeliveryRule, delivery: Delivery, options: unknown): readonly DeliveryFinding[] {
  const all = { people: [], files: [] }
  if (options === false) return [{ ...all, ...skipped('Switched off in the spec.') }]
  const found = rule.judge(delivery, options)
  if (found.length > 0) return found
  const reason = 'There was nothing to judge this by; check by eye.'
  return [{ ...all, verdict: 'unsure', measured: null, expected: null, reason }]
}
