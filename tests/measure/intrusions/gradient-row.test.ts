import { expect, test } from 'vitest'
import { GradientRow } from '../../../src/measure/intrusions/gradient-row.ts'

const SIZE = 12
const ramp = (right: number, down: number) =>
  Float32Array.from({ length: SIZE * SIZE }, (_, i) => right * (i % SIZE) + down * Math.floor(i / SIZE))
const flat = ramp(0, 0)

test('the gradient of a ramp, at the border too', () => {
  const row = new GradientRow({ L: ramp(3, 4), a: flat, b: flat }, SIZE, SIZE)
  for (const y of [0, 5, SIZE - 1]) {
    row.readAt(y)
    for (let x = 0; x < SIZE; x++) {
      expect([row.dx[x], row.dy[x]]).toEqual([3, 4])
      expect(row.magnitudeAt(x)).toBe(5)
    }
  }
})

test('the plane that changes fastest is told', () => {
  const row = new GradientRow({ L: ramp(1, 0), a: ramp(0, 2), b: ramp(-1.5, 0) }, SIZE, SIZE)
  row.readAt(6)
  expect([row.dx[6], row.dy[6]]).toEqual([0, 2])
})

test('below a limit, not at it', () => {
  const row = new GradientRow({ L: ramp(3, 4), a: flat, b: flat }, SIZE, SIZE)
  row.readAt(6)
  expect([4.9, 5, 5 + 1e-12, 5.1].map((limit) => row.isBelow(6, limit))).toEqual([false, false, true, true])
})
