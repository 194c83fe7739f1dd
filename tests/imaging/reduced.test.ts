import { expect, test } from 'vitest'
import { reduced } from '../../src/imaging/reduced.ts'

const picture = (width: number, height: number, code: (x: number, y: number) => number) => ({
  data: Uint8Array.from({ length: 3 * width * height }, (_, i) =>
    code(Math.floor(i / 3) % width, Math.floor(i / 3 / width)),
  ),
  width,
  height,
})

test('one color stays as it is, to the edges', () => {
  const small = reduced(
    picture(31, 17, () => 201),
    { width: 15, height: 8 },
    0.9,
  )
  expect([small.width, small.height]).toEqual([15, 8])
  expect(new Set(small.data)).toEqual(new Set([201]))
})

// A slope of one code a pixel is one of two at half the size, and its first pixel lies between the first two: by calculation.
test('a slope stays a slope in the same place', () => {
  const across = reduced(
    picture(80, 40, (x) => 2 * x),
    { width: 40, height: 20 },
    0.9,
  )
  const down = reduced(
    picture(40, 80, (_, y) => 2 * y),
    { width: 20, height: 40 },
    0.9,
  )
  for (let n = 2; n < 38; n++) {
    expect(across.data[3 * (5 * 40 + n)]).toBe(4 * n + 1)
    expect(down.data[3 * (20 * n + 5)]).toBe(4 * n + 1)
  }
})

test('what is finer than its pixels becomes its mean', () => {
  const small = reduced(
    picture(400, 400, (x, y) => ((x + y) % 2 === 0 ? 90 : 110)),
    { width: 100, height: 100 },
    0.9,
  )
  expect(Math.max(...small.data) - Math.min(...small.data)).toBeLessThanOrEqual(1)
  expect(small.data[3 * 5050]).toBe(100)
})
