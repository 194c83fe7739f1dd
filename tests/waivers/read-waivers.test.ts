import { describe, expect, test } from 'vitest'
import { readWaivers } from '../../src/waivers/read-waivers.ts'

const RULES = ['file-name', 'intact', 'headroom', 'tilt', 'roster']
const read = (text: string) => readWaivers({ file: 'waivers.yaml', text }, RULES)

test('waivers by file and by person', () => {
  const text = `
- rule: headroom
  file: print/Zoe\u0308.jpg
  reason: A tall hat.
  approved-by: Ingrid Vale
  until: 2027-03-31
- rule: roster
  person: { staff-id: "00418" }
  reason: On leave.
  approved-by: Ingrid Vale
  until: 2027-03-31
- { rule: tilt, person: Lund Bjørn 00990, reason: a, approved-by: b, until: 2028-02-29 }
`
  expect(read(text)).toEqual({
    waivers: [
      {
        line: 2,
        rule: 'headroom',
        files: ['print/Zo\u00eb.jpg'],
        people: [],
        reason: 'A tall hat.',
        approvedBy: 'Ingrid Vale',
        until: '2027-03-31',
      },
      expect.objectContaining({ line: 7, files: [], people: [{ 'staff-id': '00418' }] }),
      expect.objectContaining({ line: 12, people: ['Lund Bjørn 00990'], until: '2028-02-29' }),
    ],
  })
})

test('lists of files and of people', () => {
  const rest = 'reason: a, approved-by: b, until: 2027-03-31'
  const text = `
- { rule: tilt, file: [a.jpg, Zoe\u0308.jpg], ${rest} }
- { rule: tilt, person: [Lund Bjørn 00990, { staff-id: "00418" }], ${rest} }
`
  expect(read(text)).toMatchObject({
    waivers: [
      { files: ['a.jpg', 'Zo\u00eb.jpg'], people: [] },
      { files: [], people: ['Lund Bjørn 00990', { 'staff-id': '00418' }] },
    ],
  })
})

test('an empty file waives nothing', () => {
  expect(read('')).toEqual({ waivers: [] })
  expect(read('# none\n')).toEqual({ waivers: [] })
})

const GOOD = 'rule: tilt, file: a.jpg, reason: a, approved-by: b, until: 2027-03-31'
const changed = (from: string, to: string) => `- { ${GOOD.replace(from, to)} }`

describe('what is wrong is told with line and column', () => {
  test.each([
    ['no list', 'rule: tilt', 'should be a list'],
    ['no mapping', '- tilt', 'This is not an exception'],
    ['no rule', changed('rule: tilt, ', ''), 'rule is missing'],
    ['a rule that there is not', changed('tilt', 'tild'), 'There is no rule "tild"; did you mean tilt?'],
    ['intact', changed('tilt', 'intact'), 'No exception covers intact'],
    ['neither file nor person', changed('file: a.jpg, ', ''), 'names either files or people'],
    ['both', changed('file: a.jpg', 'file: a.jpg, person: Lund'), 'names either files or people'],
    ['no reason', changed('reason: a, ', ''), 'reason is missing'],
    ['a reason that shows nothing', changed('reason: a', 'reason: "\u200b"'), 'reason has no words'],
    [
      'nobody who can be read',
      changed('approved-by: b', 'approved-by: "\u3164."'),
      'approved-by has no words',
    ],
    ['an empty reason', changed('reason: a', 'reason: ""'), 'reason is empty or not a text'],
    ['nobody who approved it', changed('approved-by: b, ', ''), 'approved-by is missing'],
    ['no end', changed(', until: 2027-03-31', ''), 'until is missing'],
    [
      'a day that there is not',
      changed('2027-03-31', '2027-02-29'),
      'should be a day, written as 2027-03-31',
    ],
    [
      'another way to write a day',
      changed('2027-03-31', '31.3.2027'),
      'should be a day, written as 2027-03-31',
    ],
    ['a key that there is not', changed('approved-by', 'aproved-by'), 'did you mean approved-by?'],
    ['a number for a text', changed('reason: a', 'reason: 007'), 'reason is 007 without quotes'],
    ['a person by a number', changed('file: a.jpg', 'person: { staff-id: 00418 }'), 'put numbers in quotes'],
    ['an empty list', changed('a.jpg', '[]'), 'file is an empty list'],
    ['a number in a list', changed('a.jpg', '[a.jpg, 7]'), 'file is 7 without quotes'],
    ['no YAML', '- rule: [tilt', '['],
  ])('%s', (_, text, words) => {
    const result = read(text)
    const problems = 'problems' in result ? result.problems : []
    expect(problems.map(({ message }) => message).join(' ')).toContain(words)
    for (const { line, column } of problems) expect([line, column].every((n) => n >= 1)).toBe(true)
  })
})

test('what no YAML is, is not called a spec', () => {
  for (const text of ['{\\rtf1 x}', 'a\u0000', 'a: 1\n---\nb: 2\n', 'x'.repeat(200_000)]) {
    const result = read(text)
    expect('problems' in result && result.problems.map(({ message }) => message).join()).not.toMatch(/spec/)
    expect(result).toHaveProperty('problems')
  }
})
