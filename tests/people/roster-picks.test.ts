import { describe, expect, it } from 'vitest'
import { parsePattern } from '../../src/naming/naming.ts'
import { copyWithPicks, withPick } from '../../src/people/roster-picks.ts'

const parsed = parsePattern('{family}_{staff-id}.jpg', {}, [])
if (!('pattern' in parsed)) throw new Error('The pattern of this test is wrong.')
const reading = { naming: parsed.pattern, headers: {} }

function picked(text: string, line: number, value: string): string | null {
  return withPick({ file: 'staff.csv', text }, { line, value }, reading)
}

describe('a pick in a roster', () => {
  it.each([
    ['commas', 'family,staff-id,pick\nA,1,\nB,2,\n', 3, 'family,staff-id,pick\nA,1,\nB,2,OSL_1.JPG\n'],
    ['semicolons', 'family;pick;staff-id\r\nA;old;1\r\n', 2, 'family;pick;staff-id\r\nA;OSL_1.JPG;1\r\n'],
    [
      'tabs, no last line end',
      'pick\tfamily\tstaff-id\n\tA\t1',
      2,
      'pick\tfamily\tstaff-id\nOSL_1.JPG\tA\t1',
    ],
    [
      'a title, quotes, breaks within and ="007"',
      'Staff\n"family","staff-id","note","pick"\n"A, the ""first""",="007","one\nline more","x"\nB,2,,\n',
      3,
      'Staff\n"family","staff-id","note","pick"\n"A, the ""first""",="007","one\nline more",OSL_1.JPG\nB,2,,\n',
    ],
    ['sep=', 'sep=;\nfamily;staff-id;pick\nA;1;\n', 3, 'sep=;\nfamily;staff-id;pick\nA;1;OSL_1.JPG\n'],
    ['old line ends', 'family,staff-id,pick\rA,1,\rB,2,\r', 3, 'family,staff-id,pick\rA,1,\rB,2,OSL_1.JPG\r'],
  ])('is written into its cell and nowhere else: %s', (_, text, line, expected) => {
    expect(picked(text, line, 'OSL_1.JPG')).toBe(expected)
  })

  it('is quoted where it must be, and reads back', () => {
    const text = picked('family,staff-id,pick\nA,1,\n', 2, 'a, "b".jpg')
    expect(text).toBe('family,staff-id,pick\nA,1,"a, ""b"".jpg"\n')
  })

  it('can be taken back', () => {
    expect(picked('family,staff-id,pick\nA,1,OSL_1.JPG\n', 2, '')).toBe('family,staff-id,pick\nA,1,\n')
  })

  it.each([
    ['no such column', 'family,staff-id\nA,1\n'],
    ['a row that ends before it', 'family,staff-id,note,pick\nA,1\nB,2,,\n'],
    ['no roster', 'family,pick\n"A,1,\n'],
  ])('is not written with %s', (_, text) => {
    expect(picked(text, 2, 'OSL_1.JPG')).toBeNull()
  })
})

describe('a copy of a roster with picks', () => {
  it('has the column beside all that was there', () => {
    const text = 'Staff of May\nfamily;staff-id;note\nA;00418;one, two\nB;2;\n'
    const copy = copyWithPicks({ file: 'staff.csv', text }, new Map([[4, 'OSL_2.JPG']]), reading)
    expect(copy).toBe(
      'Staff of May,,,\r\nfamily,staff-id,note,pick\r\nA,00418,"one, two",\r\nB,2,,OSL_2.JPG\r\n',
    )
  })
})
