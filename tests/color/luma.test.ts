import { expect, test } from 'vitest'
import { SRGB } from '../../src/color/colorants.ts'
import { lumaOf } from '../../src/color/luma.ts'
import { solve, type Triple, transpose } from '../../src/numbers/matrix3.ts'

// ITU-R BT.709-6 rounds to four places what follows from its primaries and white: their luminances in the one mixture of
// the primaries that is the white (SMPTE RP 177).
test('the weights are those of white light on the primaries of BT.709', () => {
  const xyz = ([x, y]: readonly [number, number]): Triple => [x / y, 1, (1 - x - y) / y]
  const [red, green, blue] = solve(
    transpose([xyz(SRGB.red), xyz(SRGB.green), xyz(SRGB.blue)]),
    xyz(SRGB.white),
  )
  expect(lumaOf(1, 0, 0)).toBeCloseTo(red, 4)
  expect(lumaOf(0, 1, 0)).toBeCloseTo(green, 4)
  expect(lumaOf(0, 0, 1)).toBeCloseTo(blue, 4)
  expect(lumaOf(1, 1, 1)).toBeCloseTo(1, 12)
})
