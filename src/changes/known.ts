import { isMiss } from '../judge/verdict.ts'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import { matched } from './matched.ts'
import { isWorse } from './worse.ts'

/**
 * The outcomes over a delivery, those marked as known that it had in the same way before a change. Never one that names a
 * file which the change touches, never one that is worse than before.
 * @param changed paths of the files that the change touches
 */
export function withKnown(
  now: readonly DeliveryOutcome[],
  before: readonly DeliveryOutcome[],
  changed: ReadonlySet<string>,
): DeliveryOutcome[] {
  const untouched = now.filter((one) => isMiss(one) && !one.files.some((file) => changed.has(file)))
  const known = matched(untouched, before.filter(isMiss), (one, other) => !isWorse(one, other))
  return now.map((one) => (known.has(one) ? { ...one, known: true } : one))
}
