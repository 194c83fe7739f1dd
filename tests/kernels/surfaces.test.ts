import { expect, test } from 'vitest'
import { fittedSurface } from '../../src/kernels/surfaces.ts'
import { gaussian, seeded } from '../random.ts'
import { fittedPlainly } from './plain-surface.ts'

const LIMITS = { toSigma: 1.4826, tukey: 4.685, rounds: 12, settled: 0.005, ridge: 1e-4, singular: 1e-12 }

// To the last bit: the same steps in the same order, in double precision.
test.each([
  ['no samples', 0, 0, 0.4],
  ['a single one', 1, 0, 0.4],
  ['fewer than a surface has terms', 4, 0, 0.4],
  ['noise below the floor', 300, 0, 8],
  ['a third of outliers', 901, 0.3, 0.1],
  ['more outliers than not, which may never settle', 700, 0.6, 0.1],
])('%s', (_, count, outliers, floor) => {
  const next = seeded(count + 1)
  const xs = Float32Array.from({ length: count }, () => 2 * next() - 1)
  const ys = Float32Array.from({ length: count }, () => 2 * next() - 1)
  const noise = gaussian(count + 1)
  const zs = Float32Array.from(xs, (x, i) => {
    const y = ys[i] as number
    return next() < outliers ? 20 + 30 * next() : 90 - 3 * x + 2 * y - x * x + 0.5 * x * y + noise()
  })
  const found = fittedSurface([xs, ys, zs], floor, LIMITS)
  expect(found).toEqual(fittedPlainly([xs, ys, zs], floor, LIMITS))
  expect(found.surface.every(Number.isFinite)).toBe(true)
})

test('a limit of rounds ends a fit that has not settled', () => {
  const xs = Float32Array.from({ length: 64 }, (_, i) => (i % 8) / 4 - 1)
  const ys = Float32Array.from({ length: 64 }, (_, i) => Math.floor(i / 8) / 4 - 1)
  const zs = xs.map((x, i) => (i % 3 === 0 ? 50 : 10 * x))
  for (const rounds of [0, 1, 5]) {
    const limits = { ...LIMITS, rounds, settled: 0 }
    expect(fittedSurface([xs, ys, zs], 0.1, limits)).toEqual(fittedPlainly([xs, ys, zs], 0.1, limits))
  }
})
