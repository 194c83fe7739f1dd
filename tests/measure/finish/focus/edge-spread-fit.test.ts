import { describe, expect, test } from 'vitest'
import { fitEdgeSpread } from '../../../../src/measure/finish/focus/edge-spread-fit.ts'
import { FINEST_PX } from '../../../../src/measure/finish/focus/edge-spread-model.ts'
import type { Ring } from '../../../../src/measure/finish/focus/ring-spectrum.ts'
import { gaussian } from '../../../random.ts'

const FREQUENCIES = Array.from({ length: 14 }, (_, i) => 0.02 * 2 ** (i / 3))
const DISTANCE = 1 / (2 * Math.PI * 0.03)

/**
 * What edges at random distances leave, calculated another way: their covariance exp(-r / d), transformed by a Hankel
 * integral done numerically, not by its closed form.
 */
function edgePower(frequency: number): number {
  const k = 2 * Math.PI * frequency
  const step = Math.min(0.05 * DISTANCE, 0.1 / k)
  let sum = 0
  for (let r = step / 2; r < 15 * DISTANCE; r += step)
    sum += Math.exp(-r / DISTANCE) * besselJ0(k * r) * r * step
  return sum
}

/** Bessel's integral (Abramowitz and Stegun 9.1.18) by the rectangle rule, which is exact here to rounding. */
function besselJ0(x: number): number {
  const points = 40 + 2 * Math.ceil(x)
  let sum = 0
  for (let i = 0; i < points; i++) sum += Math.cos(x * Math.sin((2 * Math.PI * i) / points))
  return sum / points
}

const EDGES = FREQUENCIES.map(edgePower)

function rings(sigma: number, grain: number, scatter: () => number = () => 0): Ring[] {
  return FREQUENCIES.map((frequency, i) => ({
    frequency,
    power:
      (400 * (EDGES[i] as number) * Math.exp(-((2 * Math.PI * sigma * frequency) ** 2)) + grain) *
      Math.exp(scatter()),
  }))
}

describe('the fit gives back', () => {
  test.each([
    [0.5, 0],
    [1, 0],
    [1, 16],
    [2.5, 4],
    [6, 0],
    [6, 16],
  ])('a spread of %f px with grain of power %f', (sigma, grain) => {
    const fit = fitEdgeSpread(rings(sigma, grain), 1)
    expect(Math.abs(Math.sqrt(fit?.variance ?? 0) / sigma - 1)).toBeLessThan(0.02)
    expect(Math.abs((fit?.grain ?? -1) - grain)).toBeLessThan(0.05 * grain + 0.05)
  })
})

test('where the spectrum scatters, the standard error says how far the variance is off', () => {
  const errors = Array.from({ length: 60 }, (_, seed) => {
    const random = gaussian(seed + 1)
    const fit = fitEdgeSpread(
      rings(2, 1, () => 0.35 * random()),
      1,
    )
    if (!fit) throw new Error('There is no fit.')
    return (fit.variance - 4) / fit.error
  })
  const spread = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length)
  expect(spread).toBeGreaterThan(0.6)
  expect(spread).toBeLessThan(1.5)
})

test('without edges the variance is not known', () => {
  const grain = FREQUENCIES.map((frequency) => ({ frequency, power: 16 }))
  const fit = fitEdgeSpread(grain, 1)
  expect(fit?.error).toBeGreaterThan(Math.max(1, fit?.variance ?? 0))
})

test('nothing finer than a pixel is told', () => {
  const sharpened = FREQUENCIES.map((frequency) => ({ frequency, power: 1e-2 * frequency ** -2 }))
  expect(fitEdgeSpread(sharpened, 1)?.variance).toBeCloseTo(FINEST_PX ** 2, 6)
})

test('a few rings are too few', () => {
  expect(fitEdgeSpread(rings(1, 0).slice(0, 5), 1)).toBeNull()
})
