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

test('quotes without end take no time', () => {
  const start = performance.now()
  splitList('"'.repeat(65_535))
  splitList('";'.repeat(32_767))
  splitList('"a'.repeat(32_767))
  expect(performance.now() - start).toBeLessThan(1000)
})
