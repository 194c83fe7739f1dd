import { expect, test } from 'vitest'
import { nthSmallest } from '../../src/numbers/selection.ts'
import { seeded } from '../random.ts'

// Float32Array.prototype.sort (ECMA-262) is the reference: -0 before 0, not a number last.
function expectAsSorted(values: Float32Array): void {
  const sorted = values.slice().sort()
  for (const rank of [0, 1, values.length >> 2, values.length >> 1, values.length - 2, values.length - 1])
    expect(nthSmallest(values, rank), `rank ${rank} of ${values.length}`).toBe(sorted[rank])
}

test('values of either sign and any size, few and many, are ranked as sorting ranks them', () => {
  const random = seeded(3)
  for (const n of [3, 255, 256, 257, 2500, 20_000]) {
    expectAsSorted(Float32Array.from({ length: n }, () => 200 * (random() - 0.5)))
    expectAsSorted(Float32Array.from({ length: n }, () => (random() - 0.5) * 10 ** (60 * random() - 30)))
    expectAsSorted(Float32Array.from({ length: n }, () => Math.floor(4 * random())))
  }
})

test('zeros, infinities and what is no number stand where sorting puts them', () => {
  const odd = [0, -0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NaN, 1e-45, -1e-45]
  const random = seeded(5)
  for (let round = 0; round < 20; round++)
    expectAsSorted(Float32Array.from({ length: 600 }, () => odd[Math.floor(random() * odd.length)] ?? 1))
})

test('the values are left as they were', () => {
  const values = Float32Array.from({ length: 300 }, (_, i) => 300 - i)
  expect(nthSmallest(values, 0)).toBe(1)
  expect(values[0]).toBe(300)
})
