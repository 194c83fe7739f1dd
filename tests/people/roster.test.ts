import { describe, expect, test } from 'vitest'
import { parsePattern } from '../../src/naming/naming.ts'
import { personFields, readRoster } from '../../src/people/roster.ts'

const parsed = parsePattern(
  '{deliverable}/{family}-{given}_{staff-id}.{ext}',
  { 'staff-id': { digits: 5 } },
  ['print', 'web'],
)
if ('problems' in parsed) throw new Error('The pattern is sound.')
const { pattern: NAMING } = parsed

const read = (text: string) => readRoster({ file: 'staff.csv', text }, NAMING)

function rosterOf(text: string) {
  const result = read(text)
  if ('problems' in result) throw new Error(JSON.stringify(result.problems))
  return result.roster
}

function problemsOf(text: string): string[] {
  const result = read(text)
  return 'problems' in result ? result.problems.map(({ line, message }) => `${line}: ${message}`) : []
}

test('fields that tell a person: neither the deliverable nor the extension', () => {
  expect(personFields(NAMING)).toEqual(['family', 'given', 'staff-id'])
})

test('columns in any order and heading style, others carried along, accents in NFC', () => {
  const roster = rosterOf(
    'Practice;Staff ID;Given;Family;absent;\r\nMill Street;00990; Bjørn ;Lund;;\r\n;01207;Åsa;Bergstro\u0308m;on leave;\r\n',
  )
  expect(roster.columns).toEqual(['practice', 'staff-id', 'given', 'family', 'absent'])
  expect(roster.key).toEqual(['family', 'given', 'staff-id'])
  expect(roster.entries).toMatchObject([
    { line: 2, absent: null, values: { practice: 'Mill Street', given: 'Bjørn' } },
    { line: 3, absent: 'on leave', values: { family: 'Bergström', practice: '' } },
  ])
})

test('a roster of some of the fields tells people by those', () => {
  expect(rosterOf('staff-id\n00418\n').key).toEqual(['staff-id'])
})

test('a column called like a part of every object is a column', () => {
  const roster = rosterOf('family,hasOwnProperty,constructor\nLund,a,b\n')
  expect(roster.entries[0]?.values.constructor).toBe('b')
  expect(Object.keys(roster.entries[0]?.values ?? {})).toContain('hasownproperty')
})

describe('what is wrong is told by line, all at once', () => {
  test.each([
    ['', ['1: The roster is empty']],
    ['family,given\n', ['1: The roster has a header but no people.']],
    [
      'name,email\na,b\n',
      [
        '1: No column is a field of the naming pattern; it should be one or more of family, given, staff-id, and is "name", "email".',
      ],
    ],
    ['family,family\nLund,Lund\n', ['1: The column "family" appears twice']],
    ['family,,given\nLund,x,y\n', ['1: A column has no name']],
    [
      'family,given\nLund\nPham,Linh,x\n',
      ['2: The row has 1 values; the header has 2.', '3: The row has 3 values'],
    ],
    [
      'family,staff-id\nLund,990\n,00418\n',
      [
        '2: staff-id must be 5 digits, as in the spec; found "990". Spreadsheets drop leading zeros',
        '3: family is empty',
      ],
    ],
    [
      'family\nLund\nPham\nLund\n',
      [
        '4: "Lund" is already on line 2; remove one of the rows. If they are two people, add a field to the naming pattern that tells them apart',
      ],
    ],
    ['family,absent\nLund,x\nPham,no\n', ['2: absent is "x"; it should be the reason', '3: absent is "no"']],
    [
      'family,left\nLund,31.3.2026\nPham,3/31/2026\nNair,2026-02-30\nOkoro,46112\n',
      [
        '2: left is "31.3.2026"; it should be the person\'s last day, written as 2026-03-31, or empty.',
        '3: left is "3/31/2026"; it should be',
        '4: left is "2026-02-30"; it should be',
        '5: left is "46112"; it should be',
      ],
    ],
    [
      'family,absent\nLund,.\nPham,\u200b\nAbara,1\nVale,\u3164\n',
      ['2: absent', '3: absent', '4: absent', '5: absent'],
    ],
    [
      'Abara,00418\nfamily,staff-id\nLund,00990\n',
      ['1: This row stands above the header and reads like that of a person'],
    ],
    ['family\n"Lund\n', ['2: A quotation mark opens here']],
  ])('%j', (text, wanted) => {
    const told = problemsOf(text)
    expect(told).toHaveLength(wanted.length)
    for (const [index, words] of wanted.entries()) expect(told[index]).toContain(words)
  })
})

test('a last day is read, also from a column of another name', () => {
  const text = 'family,Austritt\nLund,2026-03-31\nPham,\n'
  const read = readRoster({ file: 'staff.csv', text }, NAMING, { left: 'Austritt' })
  expect(read).toMatchObject({ roster: { entries: [{ left: '2026-03-31' }, { left: null }] } })
})

test('the same person in another Unicode form is the same person', () => {
  expect(problemsOf('family\nZo\u00eb\nZoe\u0308\n')).toEqual([
    expect.stringContaining('is already on line 2'),
  ])
})

test('without a naming pattern no roster can be used', () => {
  expect(readRoster({ file: 'staff.csv', text: 'family\nLund\n' }, null)).toMatchObject({
    problems: [{ line: 1, message: expect.stringContaining('needs a naming pattern') }],
  })
})

test('a header of two hundred thousand columns is refused in a sentence of its own', () => {
  const columns = Array.from({ length: 200_000 }, (_, n) => `c${n.toString(36)}`)
  expect(problemsOf(`${columns.join()}\n`)).toEqual([
    '1: The header has 200000 columns; a roster may have 200. Keep those that identify people, and remove the others.',
  ])
})

test('what is quoted of a list is cut', () => {
  const [told = ''] = problemsOf(`family,staff-id\nLund,${'9'.repeat(100_000)}\n`)
  expect(told.length).toBeLessThan(300)
})

test('twenty thousand rows are read', () => {
  const rows = Array.from({ length: 20_000 }, (_, i) => `Lund,Person ${i},${String(i).padStart(5, '0')}`)
  expect(rosterOf(['family,given,staff-id', ...rows].join('\n')).entries).toHaveLength(20_000)
})

describe('lists as spreadsheets save them', () => {
  test.each([
    ['tabs', 'family\tstaff-id\nLund\t00990\n', 2],
    ['a line that names the divider', 'sep=;\r\nfamily;staff-id\r\nLund;00990\r\n', 3],
    ['a title above the header', 'Staff list, spring 2027\n\nfamily;staff-id\nLund;00990\n', 4],
    ['a title of two cells', 'Staff list;spring 2027\nfamily;staff-id\nLund;00990\n', 3],
    ['numbers kept as text', 'family,staff-id\nLund,="00990"\n', 2],
  ])('%s', (_, text, line) => {
    expect(rosterOf(text).entries).toMatchObject([{ line, values: { family: 'Lund', 'staff-id': '00990' } }])
  })

  test('columns of other names are those that the spec gives', () => {
    const text = 'Nachname;Vorname;Personal-Nr.\nLund;Bjørn;00990\n'
    const headers = { family: 'Nachname', given: 'vorname', 'staff-id': 'Personal-Nr.' }
    const result = readRoster({ file: 'staff.csv', text }, NAMING, headers)
    expect(result).toMatchObject({
      roster: { key: ['family', 'given', 'staff-id'], entries: [{ values: { given: 'Bjørn' } }] },
    })
    expect(readRoster({ file: 'staff.csv', text }, NAMING, { family: 'Familienname' })).toEqual({
      problems: [
        {
          line: 1,
          message:
            'The spec gives "Familienname" as the header of family, and no column is called so; there are "Nachname", "Vorname", "Personal-Nr.".',
        },
      ],
    })
  })

  test('headers in another language are a question that holds its answer', () => {
    const [told] = problemsOf('Nachname;Vorname\nLund;Bjørn\n')
    expect(told).toContain(
      'Is "Nachname" the column family and "Vorname" the column given? Then write into the spec: roster: { file: "staff.csv", columns: { family: "Nachname", given: "Vorname" } }',
    )
  })
})
