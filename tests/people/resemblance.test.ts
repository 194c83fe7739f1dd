import { describe, expect, test } from 'vitest'
import type { Person } from '../../src/people/person.ts'
import { Likeness } from '../../src/people/resemblance.ts'

const KEY = ['family', 'given', 'staff-id']

/** So many people of each family name, and how often anyone of them is looked at. */
function peopleOf(families: Readonly<Record<string, number>>) {
  let looks = 0
  const people = Object.entries(families).flatMap(([family, count]) =>
    Array.from({ length: count }, (_, i): Person => {
      const fields = { family, given: `Person ${i}`, 'staff-id': `${family}${String(i).padStart(5, '0')}` }
      return {
        label: `${family} ${i}`,
        get fields() {
          looks++
          return fields
        },
        entry: null,
      }
    }),
  )
  const likeness = new Likeness(people, KEY)
  looks = 0
  return { likeness, looks: () => looks }
}

describe('a long list', () => {
  test('a value that more than a thousand share tells nobody; one that a thousand share does', () => {
    const { likeness, looks } = peopleOf({ Lund: 49_000, Nair: 1000 })
    const misspelled = (family: string) => [{ family, given: 'Persn 7', 'staff-id': `${family}00007` }]
    expect(likeness.find(misspelled('Nair'))?.person).toBe('Nair 7')
    const before = looks()
    expect(likeness.find([{ family: 'Lund', given: 'Persn 7', 'staff-id': 'x' }])).toBeNull()
    expect(looks()).toBe(before)
    // A field that is rarer still tells whom of so many a name means.
    expect(likeness.find([{ family: 'Lund', given: 'Persn 7', 'staff-id': 'Lund00007' }])?.person).toBe(
      'Lund 7',
    )
  })

  test('one name in all its readings is compared with a thousand people at most', () => {
    const families = Array.from({ length: 8 }, (_, i) => `Lund ${i}`)
    const { likeness, looks } = peopleOf(Object.fromEntries(families.map((family) => [family, 1000])))
    const readings = families.map((family) => ({ family, given: 'Zola', 'staff-id': 'x' }))
    expect(likeness.find(readings)).toBeNull()
    expect(looks()).toBeLessThanOrEqual(1000)
  })
})

test('one that is near a single person of many is told for that person', () => {
  const { likeness } = peopleOf({ Lund: 500 })
  const reading = { family: 'Lund', given: 'Person 77', 'staff-id': '077' }
  expect(likeness.find([reading])).toEqual({
    person: 'Lund 77',
    resemblance: { fields: { 'staff-id': '077' }, by: 'spelling', among: 'roster' },
  })
})
