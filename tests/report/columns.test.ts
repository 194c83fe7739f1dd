import { expect, test } from 'vitest'
import { sideBySide } from '../../src/report/columns.ts'

test('cells are wrapped and stand side by side', () => {
  expect(
    sideBySide(2, 1, [
      { text: 'one two three', width: 7 },
      { text: 'four five', width: 4 },
    ]),
  ).toEqual(['  one two four', '  three   five'])
})

test('what just fits is left as it is stored', () => {
  expect(sideBySide(0, 0, [{ text: 'Zoe\u0308', width: 3 }])).toEqual(['Zoe\u0308'])
})

// Unicode UAX #11: East Asian wide characters take two columns; combining marks take none.
test('width is what is shown', () => {
  expect(
    sideBySide(0, 1, [
      { text: '肖像', width: 6 },
      { text: 'x', width: 1 },
    ]),
  ).toEqual(['肖像   x'])
  expect(
    sideBySide(0, 1, [
      { text: 'e\u0301', width: 3 },
      { text: 'x', width: 1 },
    ]),
  ).toEqual(['e\u0301   x'])
  expect(sideBySide(0, 0, [{ text: '肖像写真', width: 4 }])).toEqual(['肖像', '写真'])
})

test('a number keeps its unit beside it', () => {
  expect(sideBySide(0, 0, [{ text: 'it is 4.1 % of it', width: 9 }])).toEqual(['it is', '4.1 % of', 'it'])
  expect(sideBySide(0, 0, [{ text: 'move it by 57 px', width: 13 }])).toEqual(['move it by', '57 px'])
})

test('paint goes on text only, and padding stays plain', () => {
  const paint = (line: string) => `<${line}>`
  expect(
    sideBySide(0, 1, [
      { text: 'a', width: 2, paint },
      { text: 'b c', width: 1 },
    ]),
  ).toEqual(['<a>  b', '   c'])
})
