import { expect, test } from 'vitest'
import { SQUARE } from '../../../../src/measure/face/irises/eye-square.ts'
import { irisFit } from '../../../../src/measure/face/irises/iris-fit.ts'

/** A dark disc on white, as much of it as shows there: its edge is `soft` cells wide. */
function disc(x: number, y: number, at: number, radius: number, soft: number): number {
  const out = Math.hypot(x - at, y - SQUARE / 2) - radius
  return Math.min(1, Math.max(0, 0.5 - out / soft))
}

test('a soft dark spot that looks better at first is no iris beside one with an edge', () => {
  const gray = Float32Array.from({ length: SQUARE * SQUARE }, (_, i) => {
    const [x, y] = [i % SQUARE, Math.floor(i / SQUARE)]
    return 200 - 60 * disc(x, y, 39, 21.5, 6) - 42 * disc(x, y, 82.5, 21.5, 1)
  })
  const fit = irisFit({ gray, left: 0, top: 0, step: 1 }, 0)
  expect(Math.hypot(fit.x - 82.5, fit.y - SQUARE / 2)).toBeLessThan(1)
  expect(Math.abs(fit.radius - 21.5)).toBeLessThan(1)
})
