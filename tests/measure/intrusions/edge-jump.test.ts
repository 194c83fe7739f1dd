import { describe, expect, test } from 'vitest'
import { layOutSmoothly } from '../../../src/kernels/edges.ts'
import { indexAt, jumpsAt } from '../../../src/measure/intrusions/edge-jump.ts'
import { frameLine } from '../../../src/measure/intrusions/frame-line.ts'

const SIZE = 80
const line = frameLine(0, -20, SIZE, SIZE, { x: 40, y: 40 })
if (!line) throw new Error('The line lies in the frame.')
const upright = line

/** L* by column; a* and b* are 0. The line stands between columns 19 and 20. */
function jump(lightness: (x: number) => number) {
  const flat = new Float32Array(SIZE * SIZE)
  const L = Float32Array.from(flat, (_, i) => lightness(i % SIZE))
  const { plain: picture } = layOutSmoothly({ lab: { L, a: flat, b: flat }, width: SIZE, height: SIZE }, 1)
  return jumpsAt(picture, upright, [40], 0)[0]
}

describe('the jump from the inner to the outer side', () => {
  test('of a step is its height', () => {
    expect(jump((x) => (x < 20 ? 90 : 93))?.L).toBeCloseTo(-3, 4)
  })

  test('of a slope is nothing, steep as it may be', () => {
    expect(jump((x) => 50 + 0.4 * x)?.L).toBeCloseTo(0, 3)
  })

  test('of a step on a slope is the step', () => {
    expect(jump((x) => 50 + 0.2 * x + (x < 20 ? 3 : 0))?.L).toBeCloseTo(3, 3)
  })

  // A shadow blurred by a Gaussian of 12 px: its erf is nearly straight within 9 px of its middle.
  test('of a soft shadow is a small part of its depth', () => {
    const erf = (z: number) => Math.tanh(1.2025 * z)
    expect(Math.abs(jump((x) => 90 + 5 * erf((x - 20) / (12 * Math.SQRT2)))?.L ?? 99)).toBeLessThan(0.6)
  })
})

test('a place outside the frame has no pixel', () => {
  expect(indexAt(upright, 40, -21, SIZE, SIZE)).toBe(-1)
  expect(indexAt(upright, 40, 1, SIZE, SIZE)).toBe(40 * SIZE + 21)
})
