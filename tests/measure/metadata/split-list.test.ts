import { expect, test } from 'vitest'
import { splitList } from '../../../src/measure/metadata/split-list.ts'

// MWG Guidelines 2.0, 5.3: values in Exif Artist stand divided by "; ", one that holds a semicolon in double quotes.
test.each([
  ['one', ['one']],
  ['one; two', ['one', 'two']],
  ['one;two ;  three', ['one', 'two', 'three']],
  ['"Thorne; Mika"; two', ['Thorne; Mika', 'two']],
  ['one; "Thorne; Mika"', ['one', 'Thorne; Mika']],
  ['"the ""Owl"" studio"; two', ['the "Owl" studio', 'two']],
  ['Mika "Owl" Thorne', ['Mika "Owl" Thorne']],
  ['"never closed; two', ['"never closed', 'two']],
  ['; ;', []],
  ['', []],
])('%s', (text, values) => expect(splitList(text)).toEqual(values))

// A pattern that takes the square of their number would not come to an end.
test('quotes without end', () => {
  expect(splitList('"'.repeat(1_000_001))).toHaveLength(1)
  expect(splitList('";'.repeat(500_000))).toHaveLength(250_000)
  expect(splitList('"a'.repeat(500_000))).toHaveLength(1)
})
