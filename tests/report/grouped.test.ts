import { expect, test } from 'vitest'
import { grouped } from '../../src/report/grouped.ts'
import type { DeliveryOutcome } from '../../src/rules/contract/delivery-outcome.ts'

const missing = (person: string, changes: Partial<DeliveryOutcome> = {}): DeliveryOutcome => ({
  ...{ rule: 'roster', advisory: false, verdict: 'fail', measured: 'missing', expected: 'the roster' },
  ...{ people: [person], files: [], reason: `"${person}" has no portrait.`, fix: 'Deliver the portraits.' },
  ...changes,
})

test('many people who are missing are one block', () => {
  const people = Array.from({ length: 39 }, (_, i) => `P${i}`)
  const [one, ...more] = grouped(people.map((person) => missing(person)))
  expect(more).toEqual([])
  expect(one).toMatchObject({ people, fix: 'Deliver the portraits.' })
  expect(one?.reason).toMatch(/^39 people are missing: P0, P1, .* and P38\.$/)
})

test('two are told one by one, as is what differs in more than the person', () => {
  const two = [missing('A'), missing('B')]
  expect(grouped(two)).toEqual(two)
  const waiver = { reason: 'a', approvedBy: 'b', until: '2027-03-31' }
  const others = [
    missing('A'),
    missing('B', { files: ['b.jpg'] }),
    missing('C', { waiver }),
    missing('D', { measured: null }),
  ]
  expect(grouped(others)).toEqual(others)
})
