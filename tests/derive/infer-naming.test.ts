import { describe, expect, test } from 'vitest'
import { inferNaming } from '../../src/derive/infer-naming.ts'
import { knownNames } from '../../src/derive/known-names.ts'

const PEOPLE = [
  ['Adeyemi', 'Folasade', '00418'],
  ['Bergström', 'Åsa', '01207'],
  ['Castellanos', 'Inés', '10233'],
  ['Dhillon', 'Harpreet', '10871'],
  ['Eriksen', 'Søren', '00752'],
  ['O’Farrell', 'Niamh', '11904'],
] as const
const DELIVERABLES = ['print', 'web']

/** Paths written to a pattern: one for each person, and for each deliverable where the pattern has it. */
function written(pattern: string): { path: string; deliverable: string | null }[] {
  const several = pattern.includes('{deliverable}')
  return (several ? DELIVERABLES : [null]).flatMap((deliverable) =>
    PEOPLE.map(([family, given, id]) => ({
      deliverable,
      path: pattern
        .replace('{deliverable}', deliverable ?? '')
        .replace('{family}', family)
        .replace('{given}', given)
        .replace('{staff-id}', id),
    })),
  )
}

function inferred(pattern: string, roster?: string) {
  const files = written(pattern)
  const names = new Map(files.map(({ path, deliverable }) => [path, deliverable]))
  const read = roster === undefined ? { known: new Map() } : knownNames(roster)
  if ('problem' in read) throw new Error(read.problem)
  return inferNaming(
    files.map(({ path }) => path),
    (path) => names.get(path) ?? null,
    read.known,
  )
}

const PATTERNS = [
  '{deliverable}/{family}-{given}_{staff-id}.jpg',
  '{family}_{given}.jpg',
  '{staff-id}.jpg',
  '{family}-{given}-{deliverable}.jpg',
  '{deliverable}/{staff-id}_{family}_{given}.png',
  'OL{staff-id}_{deliverable}.jpg',
  'portrait-{family}-{given}.jpg',
  '{family}.{given}.{staff-id}.tif',
  '{deliverable}_{family}_{given}.jpg',
  '{family} {given} ({staff-id}).jpg',
]

describe('ten patterns are recovered from the names alone', () => {
  test.each(PATTERNS)('%s', (pattern) => {
    expect(inferred(pattern)?.pattern).toBe(pattern)
    expect(inferred(pattern)?.others).toEqual([])
  })
})

test('digits are counted, with a range where they differ', () => {
  expect(inferred('{staff-id}.jpg')?.fields).toEqual({ 'staff-id': { digits: 5 } })
  const ids = ['7.jpg', '12.jpg', '345.jpg']
  expect(inferNaming(ids, () => null, new Map())?.fields).toEqual({
    'staff-id': { digits: { min: 1, max: 3 } },
  })
})

test('digits are those of the roster, whatever slips the names have', () => {
  const read = knownNames(`staff-id\n${PEOPLE.map(([, , id]) => id).join('\n')}\n`)
  const known = 'known' in read ? read.known : new Map()
  const paths = PEOPLE.map(([, , id], i) => `${i === 0 ? id.slice(1) : id}.jpg`)
  expect(inferNaming(paths, () => null, known)).toMatchObject({
    fields: { 'staff-id': { digits: 5 } },
    others: ['0418.jpg'],
  })
})

test('a roster tells the given name that stands first; without it the order is a guess', () => {
  const roster = `Family;Given;Staff ID\n${PEOPLE.map((row) => row.join(';')).join('\n')}\n`
  expect(inferred('{given}-{family}.jpg', roster)).toMatchObject({
    pattern: '{given}-{family}.jpg',
    orderIsAGuess: false,
  })
  expect(inferred('{given}-{family}.jpg')).toMatchObject({
    pattern: '{family}-{given}.jpg',
    orderIsAGuess: true,
  })
})

test('names built differently are told, and names without a pattern give none', () => {
  const paths = [...written('{family}_{given}.jpg').map(({ path }) => path), 'final final 2.jpg']
  expect(inferNaming(paths, () => null, new Map())?.others).toEqual(['final final 2.jpg'])
  expect(inferNaming(['a1.jpg', 'b-c.jpg', 'd e f.jpg', '9.jpg'], () => null, new Map())).toBeNull()
})

test('a roster without columns of names is told', () => {
  expect(knownNames('town,phone\nA,1\n')).toMatchObject({
    problem: expect.stringContaining('none of the columns'),
  })
})

test('columns are named as in a roster, however they are written', () => {
  const read = knownNames('Family,Staff\u00a0 _ID\nStone,7\n')
  expect('known' in read && [...read.known.keys()]).toEqual(['family', 'staff-id'])
})

test('a double name of another shape than the others fits the pattern all the same; a name without its number does not', () => {
  const names = ['Reyes_Lucía_00012', 'Moss_Ade_00013', 'Abara-Duru_Nkem_00014', 'Holt_Ida_00015', 'Finch_Bo']
  const naming = inferNaming(
    names.map((name) => `${name}.jpg`),
    () => null,
    new Map(),
  )
  expect(naming?.pattern).toBe('{family}_{given}_{staff-id}.jpg')
  expect(naming?.others).toEqual(['Finch_Bo.jpg'])
})
