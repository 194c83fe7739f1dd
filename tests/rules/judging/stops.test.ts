import { expect, test } from 'vitest'
import { stopsBetween } from '../../../src/rules/judging/stops.ts'

// CIE 15:2004 with IEC 61966-2-1: the L* of sRGB code 230 and of that luminance lowered by parts of a stop.
test.each([
  [1 / 10, 88.84],
  [1 / 6, 87.24],
  [1 / 3, 83.34],
  [1 / 2, 79.59],
  [1, 69.16],
])('%f stop below sRGB code 230', (stops, L) => {
  expect(stopsBetween(91.293, L)).toBeCloseTo(-stops, 3)
  expect(stopsBetween(L, 91.293)).toBeCloseTo(stops, 3)
})

// CIE 15:2004: L* = 903.3 Y for Y up to 0.008856 and 116 Y^(1/3) - 16 above; Y 0.18 and 0.36 in worked values.
test.each([
  [903.2963 * 0.001, 903.2963 * 0.002],
  [903.2963 * 0.008, 116 * 0.016 ** (1 / 3) - 16],
  [49.4961, 66.5199],
])('from L* %f to %f the luminance doubles', (from, to) => {
  expect(stopsBetween(from, to)).toBeCloseTo(1, 4)
})

test('black is finite', () => {
  expect(Number.isFinite(stopsBetween(0, 96))).toBe(true)
})
