import { describe, expect, test } from 'vitest'
import { above, meanOfSquares, slopes } from '../../src/kernels/planes.ts'
import { seeded } from '../random.ts'

// Against the definitions in plain TypeScript, in double precision; single precision keeps seven digits.
const SIZES = [
  [1, 1],
  [2, 7],
  [5, 2],
  [17, 23],
  [64, 31],
] as const

function random(count: number): Float32Array {
  const next = seeded(count)
  return Float32Array.from({ length: count }, () => 100 * next())
}

function expectClose(found: Float32Array, expected: readonly number[], within: number): void {
  expect(found).toHaveLength(expected.length)
  const worst = Math.max(...expected.map((value, i) => Math.abs(value - (found[i] as number))))
  expect(worst).toBeLessThan(within)
}

describe.each(SIZES)('%i x %i pixels', (width, height) => {
  const values = random(width * height)
  const at = (x: number, y: number) => values[y * width + x] as number
  const pixels = Array.from(values, (_, i) => ({ x: i % width, y: Math.floor(i / width) }))

  test.each([1, 2, 4])('means of squares of %i around each', (radius) => {
    const means = pixels.map((pixel) => {
      const near = pixels.filter(
        ({ x, y }) => Math.abs(x - pixel.x) <= radius && Math.abs(y - pixel.y) <= radius,
      )
      return near.reduce((sum, { x, y }) => sum + at(x, y), 0) / near.length
    })
    expectClose(meanOfSquares(values, width, height, radius), means, 1e-4)
  })

  test('slopes between the values two pixels to each side', () => {
    const ends = (here: number, size: number) =>
      [Math.max(0, here - 2), Math.min(size - 1, here + 2)] as const
    const perPixel = (rise: number, run: number) => (run === 0 ? 0 : rise / run)
    const expected = pixels.map(({ x, y }) => {
      const [left, right] = ends(x, width)
      const [top, bottom] = ends(y, height)
      return Math.hypot(
        perPixel(at(right, y) - at(left, y), right - left),
        perPixel(at(x, bottom) - at(x, top), bottom - top),
      )
    })
    expectClose(slopes(values, width, height, 2), expected, 1e-4)
  })

  test('what is above a limit', () => {
    expect(above(values, 40)).toEqual(Uint8Array.from(values, (value) => Number(value > 40)))
  })
})
