import { expect, test } from 'vitest'
import { byPerson } from '../../../src/rules/judging/by-person.ts'
import { portrait } from '../delivery/deliveries.ts'

test('the files of each person in their order, without those of nobody', () => {
  const files = [
    portrait('Lund', 'web'),
    portrait('Nair', 'print'),
    { ...portrait('Lund', 'web'), person: null },
    portrait('Lund', 'print'),
  ]
  const own = byPerson(files)
  expect([...own.keys()]).toEqual(['Lund', 'Nair'])
  expect(own.get('Lund')).toEqual([files[0], files[3]])
})
