import { expect, test } from 'vitest'
import { SRGB } from '../../src/color/colorants.ts'
import { lumaOf } from '../../src/color/luma.ts'

// ITU-R BT.709-6 rounds to four places what follows from its primaries and white (SMPTE RP 177): the row of Y, before any
// adaptation to another white.
test('the weights are those of white light on the primaries of BT.709', () => {
  expect(lumaOf(1, 1, 1)).toBeCloseTo(1, 12)
  const [x, y] = SRGB.white
  const ofY = [SRGB.red, SRGB.green, SRGB.blue].map(([px, py]) => ({ px, py }))
  // Cramer's rule on: the primaries, each times its luminance, sum up to the white.
  const column = ({ px, py }: { px: number; py: number }) => [px / py, 1, (1 - px - py) / py]
  const columns = ofY.map(column)
  const white = [x / y, 1, (1 - x - y) / y]
  const det = (m: number[][]) => {
    const [p = [], q = [], r = []] = m
    const at = (v: number[], i: number) => v[i] as number
    return (
      at(p, 0) * (at(q, 1) * at(r, 2) - at(q, 2) * at(r, 1)) -
      at(p, 1) * (at(q, 0) * at(r, 2) - at(q, 2) * at(r, 0)) +
      at(p, 2) * (at(q, 0) * at(r, 1) - at(q, 1) * at(r, 0))
    )
  }
  const weights = [0, 1, 2].map((i) => det(columns.with(i, white)) / det(columns))
  expect(lumaOf(1, 0, 0)).toBeCloseTo(weights[0] as number, 4)
  expect(lumaOf(0, 1, 0)).toBeCloseTo(weights[1] as number, 4)
  expect(lumaOf(0, 0, 1)).toBeCloseTo(weights[2] as number, 4)
})
