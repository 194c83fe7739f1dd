import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import { listed } from '../text/quantity.ts'

// Two can be read one after the other.
const LEAST = 3

/** The outcomes with those that say the same of three people or more, and of no file, in one: "39 people are missing". */
export function grouped(outcomes: readonly DeliveryOutcome[]): DeliveryOutcome[] {
  const groups = new Map<string, DeliveryOutcome[]>()
  for (const outcome of outcomes) {
    const key = keyOf(outcome)
    groups.set(key, [...(groups.get(key) ?? []), outcome])
  }
  return [...groups.values()].flatMap((group) => (group.length < LEAST ? group : [inOne(group)]))
}

/** What two outcomes have in common that differ only in the person; one of its own for any other. */
function keyOf({ reason, people, ...rest }: DeliveryOutcome): string {
  const isOfOnePerson = people.length === 1 && rest.files.length === 0
  return isOfOnePerson && rest.measured !== null && !rest.waiver
    ? JSON.stringify(rest)
    : JSON.stringify({ ...rest, people, reason })
}

function inOne(group: readonly DeliveryOutcome[]): DeliveryOutcome {
  const [first] = group
  if (!first) throw new Error('A group has outcomes.')
  const people = [...new Set(group.flatMap((outcome) => outcome.people))]
  return { ...first, people, reason: `${people.length} people are ${first.measured}: ${listed(people)}.` }
}
