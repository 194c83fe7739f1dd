import { describe, expect, test } from 'vitest'
import { blurredAt } from '../../../../src/imaging/gaussian.ts'
import type { Patch } from '../../../../src/imaging/patch.ts'
import { haloOf } from '../../../../src/measure/finish/focus/halo.ts'
import { gaussian } from '../../../random.ts'

const SIGMA = 0.8

function blurred(patch: Patch, sigma: number): Patch {
  const [luma] = blurredAt(patch, [sigma], Int32Array.from(patch.luma.keys()))
  return { ...patch, luma: luma as Float32Array }
}

/** Bars of 24 px from top to bottom, blurred. */
function bars(low = 70, high = 150): Patch {
  const [width, height] = [192, 96]
  const luma = Float32Array.from({ length: width * height }, (_, i) =>
    Math.floor((i % width) / 24) % 2 === 0 ? low : high,
  )
  return blurred({ luma, width, height }, SIGMA)
}

/** In whole codes, as a file holds it. */
function saved(patch: Patch): Patch {
  return { ...patch, luma: patch.luma.map(Math.round) }
}

/** As the unsharp mask of every picture editor does it: what a Gaussian takes away is added so many times. */
function sharpened(patch: Patch, radius: number, amount: number): Patch {
  const soft = blurred(patch, radius)
  return {
    ...patch,
    luma: patch.luma.map((value, i) => value + amount * (value - (soft.luma[i] as number))),
  }
}

/** The normal distribution function (Abramowitz and Stegun 26.2.17, good to 1e-7). */
function normal(x: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(x))
  const tail =
    (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  return x > 0 ? 1 - tail : tail
}

/** What the halo of a masked, blurred edge is by the formula: its highest pixel less that `beyond` px further, of the whole height. */
function expected(radius: number, amount: number, beyond: number): number {
  // Pixels lie half a pixel off the edge.
  const at = (x: number) =>
    (1 + amount) * normal((x + 0.5) / SIGMA) - amount * normal((x + 0.5) / Math.hypot(SIGMA, radius))
  const values = Array.from({ length: 12 }, (_, x) => at(x))
  const top = values.indexOf(Math.max(...values))
  const highest = values[top] as number
  return (100 * (highest - at(top + beyond))) / (2 * highest - 1)
}

/** Their height, beside edges without grain. */
const heightOf = (patch: Patch) => haloOf(patch, SIGMA, 0, 1)?.height ?? Number.NaN

describe('haloOf', () => {
  test('edges that were only blurred have none', () => {
    expect(heightOf(saved(bars()))).toBeCloseTo(0, 1)
  })

  test.each([
    [0.8, 2],
    [1.2, 1],
    [1.2, 2],
    [2, 2],
  ])('an unsharp mask of %f px and %f times is read as its formula has it', (radius, amount) => {
    const halo = heightOf(saved(sharpened(bars(), radius, amount)))
    expect(Math.abs(halo - expected(radius, amount, 2))).toBeLessThan(1.5)
  })

  test('the contrast of the picture has no say', () => {
    const [soft, hard] = [bars(100, 140), bars(40, 200)].map((patch) =>
      heightOf(saved(sharpened(patch, 1.2, 1.5))),
    )
    expect(Math.abs((soft as number) - (hard as number))).toBeLessThan(0.5)
  })

  test('grain of 2 codes hardly moves it', () => {
    const patch = sharpened(bars(), 1.2, 1.5)
    const random = gaussian(7)
    const grainy = { ...patch, luma: patch.luma.map((value) => value + 2 * random()) }
    const clean = heightOf(saved(patch))
    expect(Math.abs(heightOf(saved(grainy)) - clean)).toBeLessThan(6)
  })

  test('what grain may add is told, the more the lower the edges are', () => {
    const [low, high] = [bars(100, 140), bars(40, 200)].map(
      (patch) => haloOf(saved(patch), SIGMA, 6, 1)?.ofGrain,
    )
    expect(low).toBeCloseTo(85 * (6 / 40 - 0.05), 0)
    expect(high).toBe(0)
  })

  test('a patch without edges tells nothing', () => {
    const flat = { luma: new Float32Array(64 * 64).fill(120), width: 64, height: 64 }
    expect(haloOf(flat, SIGMA, 0, 1)).toBeNull()
  })
})
