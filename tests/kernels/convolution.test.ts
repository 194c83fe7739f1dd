import { expect, test } from 'vitest'
import { contrasts, convolved, convolvedAt, weighedInside } from '../../src/kernels/convolution.ts'
import { seeded } from '../random.ts'

// Against the definition in double precision; single precision keeps seven digits.
test.each([
  [1, 1, 1],
  [3, 2, 9],
  [16, 5, 3],
  [17, 23, 7],
  [70, 31, 21],
])('%i x %i pixels by %i weights', (width, height, count) => {
  const next = seeded(width)
  const values = Float32Array.from({ length: width * height }, () => 255 * next())
  const weights = Float32Array.from({ length: count }, () => next() / count)
  const reach = (count - 1) / 2
  const within = (at: number, size: number) => Math.min(size - 1, Math.max(0, at))
  const expected = Float32Array.from(values, (_, i) => {
    const [x, y] = [i % width, Math.floor(i / width)]
    let sum = 0
    for (const [down, rowWeight] of weights.entries())
      for (const [right, weight] of weights.entries()) {
        const [column, row] = [within(x + right - reach, width), within(y + down - reach, height)]
        sum += rowWeight * weight * (values[row * width + column] as number)
      }
    return sum
  })
  const found = convolved(values, width, height, weights)
  expect(found).toHaveLength(values.length)
  const worst = Math.max(...found.map((value, i) => Math.abs(value - (expected[i] as number))))
  expect(worst).toBeLessThan(1e-3)
})

test('weighted sums down and along, where there is a value for each weight', () => {
  const next = seeded(6)
  const [width, height] = [29, 13]
  const values = Float32Array.from({ length: width * height }, next)
  const [down, along] = [7, 4].map((count) => Float32Array.from({ length: count }, next)) as [
    Float32Array,
    Float32Array,
  ]
  const [across, rows] = [width - 3, height - 6]
  const found = weighedInside(values, width, down, along)
  expect(found).toHaveLength(across * rows)
  for (const [i, value] of found.entries()) {
    const [x, y] = [i % across, Math.floor(i / across)]
    let sum = 0
    for (const [k, weight] of down.entries())
      for (const [n, other] of along.entries())
        sum += weight * other * (values[(y + k) * width + x + n] as number)
    expect(Math.abs(value - sum)).toBeLessThan(1e-4)
  }
})

test('a plane convolved by several kinds of weights, at some pixels', () => {
  const next = seeded(4)
  const values = Float32Array.from({ length: 20 * 9 }, next)
  const kinds = [3, 7].map((count) => Float32Array.from({ length: count }, next))
  const pixels = Int32Array.of(0, 179, 57, 58)
  expect(convolvedAt(values, 20, 9, kinds, pixels)).toEqual(
    kinds.map((weights) => {
      const all = convolved(values, 20, 9, weights)
      return Float32Array.from(pixels, (i) => all[i] as number)
    }),
  )
})

test('how much values differ, as shares of others of at least 1', () => {
  const [a, b, of] = [Float32Array.of(3, 10, 7), Float32Array.of(5, 4, 7), Float32Array.of(0.5, 12, 100)]
  expect([...contrasts(a, b, of)]).toEqual([2, 0.5, 0])
})
