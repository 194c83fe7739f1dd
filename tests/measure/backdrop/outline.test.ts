import { expect, test } from 'vitest'
import { findOutlines, slopesOf } from '../../../src/measure/backdrop/outline.ts'

const [WIDTH, HEIGHT] = [20, 10]
const picture = (value: (x: number, y: number) => number) =>
  Float32Array.from({ length: WIDTH * HEIGHT }, (_, i) => value(i % WIDTH, Math.floor(i / WIDTH)))
const border = Int32Array.from({ length: WIDTH }, (_, x) => x)

test('the slope of a ramp is its steepness everywhere', () => {
  const slopes = slopesOf(
    picture((x, y) => 50 + 0.3 * x + 0.4 * y),
    WIDTH,
    HEIGHT,
  )
  for (const slope of slopes) expect(slope).toBeCloseTo(0.5, 4)
})

test('a fall-off is no outline; a step is', () => {
  const fallOff = slopesOf(
    picture((x) => 90 - 0.3 * x),
    WIDTH,
    HEIGHT,
  )
  expect(findOutlines(fallOff, border)).toEqual(new Uint8Array(WIDTH * HEIGHT))
  const step = slopesOf(
    picture((x, y) => (x < 10 || y < 5 ? 90 : 80)),
    WIDTH,
    HEIGHT,
  )
  const outline = findOutlines(step, border)
  expect([outline[8 * WIDTH + 10], outline[8 * WIDTH + 2]]).toEqual([1, 0])
})
