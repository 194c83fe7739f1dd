import { expect, test } from 'vitest'
import type { Person } from '../../src/people/person.ts'
import { Likeness } from '../../src/people/resemblance.ts'

const KEY = ['family', 'given', 'staff-id']

/** People of one family, and how often the fields of any of them have been looked at. */
function manyPeople(count: number): { people: Person[]; looks: () => number } {
  let looks = 0
  const people = Array.from({ length: count }, (_, i): Person => {
    const fields = { family: 'Lund', given: `Person${i}`, 'staff-id': String(i).padStart(5, '0') }
    return {
      label: `${i}`,
      entry: null,
      get fields() {
        looks++
        return fields
      },
    }
  })
  return { people, looks: () => looks }
}

test('a stranger of a family of ten thousand is compared with a thousand of them', () => {
  const { people, looks } = manyPeople(10_000)
  const likeness = new Likeness(people, KEY)
  const before = looks()
  expect(likeness.find([{ family: 'Lund', given: 'Persona', 'staff-id': 'x' }])).toBeNull()
  expect(looks() - before).toBe(1000)
})

test('one that is near a single person of many is told for that person', () => {
  const { people } = manyPeople(500)
  expect(new Likeness(people, KEY).find([{ family: 'Lund', given: 'Person77', 'staff-id': '077' }])).toEqual({
    person: '77',
    resemblance: { fields: { 'staff-id': '077' }, by: 'spelling' },
  })
})
