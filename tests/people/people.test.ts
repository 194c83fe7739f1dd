import { describe, expect, test } from 'vitest'
import type { NameReading } from '../../src/naming/name-reading.ts'
import { parsePattern } from '../../src/naming/naming.ts'
import { findPeople } from '../../src/people/people.ts'
import { readRoster } from '../../src/people/roster.ts'

function patternOf(text: string) {
  const parsed = parsePattern(text, {}, [])
  if ('problems' in parsed) throw new Error('The pattern is sound.')
  return parsed.pattern
}
const NAMING = patternOf('{family}-{given}_{staff-id}.jpg')

const name = (fields: Record<string, string>, ...otherReadings: Record<string, string>[]): NameReading => ({
  path: `${Object.values(fields).join('-')}.jpg`,
  pattern: NAMING.text,
  fields,
  ...(otherReadings.length > 0 && { otherReadings }),
  deliverable: null,
  problems: [],
})
const person = (family: string, given: string, id: string) => ({ family, given, 'staff-id': id })

function rosterOf(text: string, naming = NAMING) {
  const read = readRoster({ file: 'staff.csv', text }, naming)
  if ('problems' in read) throw new Error(JSON.stringify(read.problems))
  return read.roster
}
const STAFF = rosterOf(
  'family,given,staff-id\nBergström,Åsa,01207\nCastellanos,Inés,10233\nSmith-Jones,Anna,00001\nSmith,Anna,00002\n',
)
const whom = (one: NameReading) => findPeople([one], NAMING, STAFF).attributions[0]

test('those on the roster come first, in its order, then others by label', () => {
  const names = [name(person('Zola', 'Em', '9')), name(person('Abe', 'Jo', '8'))]
  const { people } = findPeople(names, NAMING, STAFF)
  expect(people.map(({ label }) => label)).toEqual([
    'Bergström Åsa 01207',
    'Castellanos Inés 10233',
    'Smith-Jones Anna 00001',
    'Smith Anna 00002',
    'Abe Jo 8',
    'Zola Em 9',
  ])
  expect(people.map(({ entry }) => entry?.line ?? null)).toEqual([2, 3, 4, 5, null, null])
})

test('a name is looked up by each of its readings', () => {
  const read = name(person('Smith', 'Jones-Anna', '00001'), person('Smith-Jones', 'Anna', '00001'))
  expect(whom(read)).toEqual({ person: 'Smith-Jones Anna 00001', resemblance: null })
})

// Unicode UAX #15: the two forms of one name are canonically equivalent.
test('composed and decomposed accents are one name', () => {
  expect(whom(name(person('Bergstro\u0308m', 'A\u030asa', '01207')))).toEqual({
    person: 'Bergström Åsa 01207',
    resemblance: null,
  })
})

describe('likely people', () => {
  test.each([
    ['letter case', person('bergström', 'Åsa', '01207'), 'Bergström Åsa 01207', 'case', ['family']],
    ['accents', person('Bergstrom', 'Asa', '01207'), 'Bergström Åsa 01207', 'accents', ['family', 'given']],
    [
      'a misspelling',
      person('Castelanos', 'Inés', '10233'),
      'Castellanos Inés 10233',
      'spelling',
      ['family'],
    ],
    [
      'a version after the name',
      person('Smith', 'Anna_final', '00002'),
      'Smith Anna 00002',
      'suffix',
      ['given'],
    ],
    [
      'a version after the number',
      person('Smith', 'Anna', '00002-web'),
      'Smith Anna 00002',
      'suffix',
      ['staff-id'],
    ],
    [
      'a wrong number',
      person('Castellanos', 'Inés', '10333'),
      'Castellanos Inés 10233',
      'spelling',
      ['staff-id'],
    ],
    [
      'another name in marriage',
      person('Reyes', 'Inés', '10233'),
      'Castellanos Inés 10233',
      'spelling',
      ['family'],
    ],
  ])('%s', (_, fields, label, by, differing) => {
    const found = whom(name(fields))
    expect(found?.person).toBe(label)
    expect(found?.resemblance?.by).toBe(by)
    expect(found?.resemblance?.among).toBe('roster')
    expect(Object.keys(found?.resemblance?.fields ?? {})).toEqual(differing)
  })

  test.each([
    ['somebody else', person('Okoro', 'Emeka', '16001')],
    ['a namesake with another number and another given name', person('Smith', 'Peter', '00017')],
    ['a second given name with another number', person('Smith', 'Anna-Lena', '00009')],
    ['a number of someone else', person('Okoro', 'Emeka', '10233')],
  ])('not %s', (_, fields) => {
    expect(whom(name(fields))).toEqual({ person: Object.values(fields).join(' '), resemblance: null })
  })

  test('of two who are equally likely neither, but the one whose name it is', () => {
    expect(whom(name(person('Smith', 'Anna', '00003')))?.person).toBe('Smith Anna 00002')
  })

  test('the next number is never taken for a slip of the pen', () => {
    const naming = patternOf('{staff-id}.jpg')
    const roster = rosterOf('staff-id\n00418\n', naming)
    const { attributions } = findPeople([name({ 'staff-id': '00419' })], naming, roster)
    expect(attributions).toEqual([{ person: '00419', resemblance: null }])
  })
})

test('a name that lacks a field tells nobody', () => {
  expect(whom(name({ family: 'Lund' }))).toEqual({ person: null, resemblance: null })
})

test('without a roster, people are those whom the names tell; without a pattern, there are none', () => {
  const names = [name(person('Lund', 'Bjørn', '00990')), name(person('Lund', 'Bjørn', '00990'))]
  expect(findPeople(names, NAMING, null).people).toEqual([
    { label: 'Lund Bjørn 00990', fields: person('Lund', 'Bjørn', '00990'), entry: null },
  ])
  expect(findPeople(names, null, null)).toEqual({
    people: [],
    attributions: names.map(() => ({ person: null, resemblance: null })),
  })
})

test('labels are one of a kind', () => {
  const names = [
    name({ family: 'A B', given: 'C', 'staff-id': '1' }),
    name({ family: 'A', given: 'B C', 'staff-id': '1' }),
  ]
  const labels = findPeople(names, NAMING, null).people.map(({ label }) => label)
  expect(new Set(labels).size).toBe(2)
})

test('names like parts of every object are names', () => {
  const fields = person('__proto__', 'constructor', 'toString')
  expect(findPeople([name(fields)], NAMING, STAFF).attributions[0]?.person).toBe(
    '__proto__ constructor toString',
  )
})
