import { expect, test } from 'vitest'
import { type FieldConstraint, fieldCheck, impossibleConstraint } from '../../src/naming/naming-field.ts'

const CASES: [FieldConstraint, string, string | null][] = [
  [{ digits: 5 }, '00123', null],
  [{ digits: 5 }, '1234', '5 digits'],
  [{ digits: 5 }, '123456', '5 digits'],
  [{ digits: 5 }, '1234a', '5 digits'],
  [{ digits: 5 }, '１２３４５', '5 digits'],
  [{ digits: 5 }, '12345\n', '5 digits'],
  [{ digits: 1 }, '', '1 digit'],
  [{ digits: { min: 4, max: 6 } }, '1234', null],
  [{ digits: { min: 4, max: 6 } }, '123456', null],
  [{ digits: { min: 4, max: 6 } }, '123', '4 to 6 digits'],
  [{ 'one-of': ['surgery', 'ward'] }, 'ward', null],
  [{ 'one-of': ['surgery', 'ward'] }, 'Ward', 'one of surgery, ward'],
  [{ 'one-of': ['Kür'.normalize('NFD')] }, 'Kür'.normalize('NFC'), null],
  [{ case: 'lower' }, 'zoë-2', null],
  [{ case: 'lower' }, 'Zoë', 'in lowercase'],
  [{ case: 'upper' }, 'ZOË 2', null],
  [{ case: 'upper' }, 'ZOë', 'in uppercase'],
  [{ 'max-length': 3 }, 'Zoë', null],
  [{ 'max-length': 3 }, '\u{20BB7}野家', null],
  [{ 'max-length': 2 }, 'Zoë', 'at most 2 characters long'],
  [{ case: 'lower', 'max-length': 2 }, 'Zoë', 'in lowercase and at most 2 characters long'],
  [{}, 'anything at all', null],
]

test.each(CASES)('%j of %j: %s', (constraint, value, wanted) => {
  expect(fieldCheck(constraint)(value)).toBe(wanted)
})

test('a long list of values is cut in the sentence', () => {
  const values = Array.from({ length: 40 }, (_, n) => `v${n}`)
  expect(fieldCheck({ 'one-of': values })('x')).toBe(`one of ${values.slice(0, 12).join(', ')} (and 28 more)`)
})

test('a range that no number of digits meets is told', () => {
  expect(impossibleConstraint({ digits: { min: 6, max: 4 } })).toContain('swap them')
  expect(impossibleConstraint({ digits: { min: 4, max: 4 } })).toBeNull()
  expect(impossibleConstraint({ 'one-of': ['a'] })).toBeNull()
})
