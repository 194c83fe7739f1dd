import { describe, expect, test } from 'vitest'
import { HoughAccumulator } from '../../../src/measure/intrusions/hough-accumulator.ts'

const WIDTH = 120
const HEIGHT = 160

/** Votes of the edge pixels on a line through the frame; `turn` is added to the direction of their gradient, radians. */
function vote(accumulator: HoughAccumulator, angle: number, rho: number, turn = 0): number {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  let count = 0
  for (let y = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++) {
      if (Math.abs((x + 0.5 - WIDTH / 2) * cos + (y + 0.5 - HEIGHT / 2) * sin - rho) > 0.5) continue
      accumulator.vote(x, y, Math.cos(angle + turn), Math.sin(angle + turn), 1)
      count++
    }
  }
  return count
}

const strongest = (accumulator: HoughAccumulator) =>
  accumulator.peaks(20).toSorted((p, q) => q.votes - p.votes)[0]

// The definition: x cos(angle) + y sin(angle) = rho (Duda and Hart 1972).
describe('a line comes out as it was drawn', () => {
  test.each([
    ['upright', 0, 40],
    ['level', Math.PI / 2, -30],
    ['leaning', (30 * Math.PI) / 180, 24],
    ['the other way', (140 * Math.PI) / 180, -24],
  ])('%s', (_, angle, rho) => {
    const accumulator = new HoughAccumulator(WIDTH, HEIGHT)
    const count = vote(accumulator, angle, rho)
    const peak = strongest(accumulator)
    expect(Math.abs((peak?.angle ?? 9) - angle)).toBeLessThan(0.02)
    expect(Math.abs((peak?.rho ?? 99) - rho)).toBeLessThanOrEqual(2)
    expect(peak?.votes).toBeGreaterThan(0.8 * count)
  })
})

test('gradients from dark to light and from light to dark vote for the same line', () => {
  const accumulator = new HoughAccumulator(WIDTH, HEIGHT)
  const count = vote(accumulator, 0.4, 20) + vote(accumulator, 0.4, 20, Math.PI)
  expect(strongest(accumulator)?.votes).toBeGreaterThan(0.8 * count)
})

test('edge pixels whose gradient points elsewhere do not vote for it', () => {
  const accumulator = new HoughAccumulator(WIDTH, HEIGHT)
  vote(accumulator, 0.4, 20, 0.3)
  expect(accumulator.peaks(20).filter(({ angle }) => Math.abs(angle - 0.4) < 0.02)).toEqual([])
})

test('one peak stands for a line at the seam of the angles', () => {
  const accumulator = new HoughAccumulator(WIDTH, HEIGHT)
  vote(accumulator, 0, 40)
  expect(accumulator.peaks(60)).toHaveLength(1)
})
