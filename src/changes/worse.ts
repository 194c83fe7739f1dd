import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'

/**
 * How much farther off the set a portrait that was not touched may stand before it counts as worse: median and spread
 * move a little with every portrait that comes or goes.
 * @choice half as much again, no source
 */
const DRIFT = 1.5

/**
 * Whether a finding says more, or worse, than an earlier one about the same. Words are compared as they are; of files that
 * stand out from a set, in what and how far, since the numbers move with the set.
 */
export function isWorse(now: DeliveryOutcome, before: DeliveryOutcome): boolean {
  if (now.verdict === 'fail' && before.verdict !== 'fail') return true
  if (!now.traits || !before.traits) return now.reason !== before.reason
  const had = new Set(before.traits)
  return now.traits.some((trait) => !had.has(trait)) || far(now) > DRIFT * far(before)
}

function far({ figure }: DeliveryOutcome): number {
  return Math.abs(figure?.value ?? 0)
}
