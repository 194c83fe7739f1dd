import { expect, test } from 'vitest'
import { guessesAmong } from '../../src/people/guesses.ts'
import type { Person } from '../../src/people/person.ts'
import type { RosterEntry } from '../../src/people/roster-entry.ts'

const TODAY = '2026-11-25'
const KEY = ['family', 'given']
const roster = { file: 'staff.csv', columns: KEY, key: KEY, entries: [] }

function person(name: string, entry: Partial<RosterEntry> | null): Person {
  const [family = '', given = ''] = name.split(' ')
  const row = { line: 2, values: { family, given }, absent: null, left: null, consentUntil: null }
  return { label: name, fields: { family, given }, entry: entry && { ...row, ...entry } }
}

function guesses(people: readonly Person[], there: readonly string[] = []): [string, string][] {
  const attributions = there.map((label) => ({ person: label, resemblance: null }))
  return [...guessesAmong({ people, attributions }, roster, TODAY)]
}

test('a stranger may be somebody on the roster who has no file', () => {
  const people = [person('Lund Bjørn', {}), person('Lunde Bjorn', null)]
  expect(guesses(people, ['Lunde Bjorn'])).toEqual([['Lunde Bjorn', 'Lund Bjørn']])
  expect(guesses(people, ['Lunde Bjorn', 'Lund Bjørn'])).toEqual([])
})

test('but nobody who is absent or has left, and no one of whom two strangers could be', () => {
  const stranger = person('Lunde Bjorn', null)
  expect(guesses([person('Lund Bjørn', { absent: 'on leave' }), stranger])).toEqual([])
  expect(guesses([person('Lund Bjørn', { left: '2026-11-24' }), stranger])).toEqual([])
  expect(guesses([person('Lund Bjørn', { left: '2026-11-25' }), stranger])).toHaveLength(1)
  expect(guesses([person('Lund Bjørn', {}), stranger, person('Lundt Bjorn', null)])).toEqual([])
})

test('a list of other people altogether is not compared pair by pair', () => {
  const many = (word: string, entry: Partial<RosterEntry> | null) =>
    Array.from({ length: 20_000 }, (_, i) => person(`${word} ${i}`, entry))
  expect(guesses([...many('Lund', {}), ...many('Lunde', null)])).toEqual([])
})

test('without a roster nobody is a stranger', () => {
  const people = [person('Lunde Bjorn', null)]
  expect(guessesAmong({ people, attributions: [] }, null, TODAY).size).toBe(0)
})
