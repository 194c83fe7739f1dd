import { expect, test } from 'vitest'
import { fitsRatio, ratioOf } from '../../src/numbers/ratio.ts'

test('ratioOf reads whole numbers and decimals', () => {
  expect(ratioOf('4:5')).toEqual({ wide: 4, high: 5 })
  expect(ratioOf('8.5:11')).toEqual({ wide: 8.5, high: 11 })
})

// Print sizes in inches and mm, exact: 8 x 10 is .8000, 5 x 7 .714286, 8.5 x 11 .772727, 35 x 45 mm .777778.
test.each([
  ['4:5', 1638, 2048, true],
  ['4:5', 1637, 2048, false],
  ['5:7', 1500, 2100, true],
  ['5:7', 1500, 2101, true],
  ['5:7', 1500, 2102, false],
  ['8.5:11', 2550, 3300, true],
  ['35:45', 413, 531, true],
  ['3:2', 1000, 667, true],
  ['3:2', 1000, 668, false],
  ['1:1', 800, 801, true],
  ['1:1', 800, 802, false],
])('%s holds %d x %d px: %s', (ratio, width, height, fits) => {
  expect(fitsRatio(width, height, ratioOf(ratio))).toBe(fits)
})
