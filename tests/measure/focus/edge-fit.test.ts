import { describe, expect, test } from 'vitest'
import { fitEdge, type Profile } from '../../../src/measure/focus/edge-fit.ts'

/** Normal distribution function by a series: a second way to it than the one under test (Abramowitz & Stegun, 26.2.10). */
function share(z: number): number {
  let term = z
  let sum = z
  for (let k = 1; k < 200; k++) {
    term *= (-z * z * (2 * k - 1)) / (2 * k * (2 * k + 1))
    sum += term
  }
  return 0.5 + sum / Math.sqrt(2 * Math.PI)
}

function profile(luma: (x: number) => number, reach = 8): Profile {
  const at = Float64Array.from({ length: 4 * reach + 1 }, (_, i) => -reach + i / 2)
  return { at, luma: at.map(luma) }
}
const clamp = (z: number) => Math.max(-5, Math.min(5, z))

describe('fitEdge gives the sigma of', () => {
  test.each([0.8, 1.2, 2, 3])('a step blurred by %f px', (sigma) => {
    const fit = fitEdge(
      profile((x) => 40 + 150 * share(clamp((x - 0.3) / sigma))),
      1.5,
    )
    expect(fit?.sigma).toBeCloseTo(sigma, 2)
    expect(fit?.explained).toBeGreaterThan(0.999)
  })

  test.each([0.8, 1])(
    'a dark line three pixels wide blurred by %f px, which one step would read too sharp',
    (sigma) => {
      const line = (x: number) => 200 - 120 * (share(clamp((x + 3) / sigma)) - share(clamp(x / sigma)))
      expect(fitEdge(profile(line), 1.5)?.sigma).toBeCloseTo(sigma, 1)
    },
  )

  // ISO 12233 slanted edges are read as 10-90 % rise: 2.5631 sigma for a Gaussian; calculated from the normal quantiles.
  test('the rise from 10 to 90 % of a fitted step is 2.563 sigma', () => {
    const width = 5.126
    const sigma = width / 2.5631
    expect(
      fitEdge(
        profile((x) => 255 * share(clamp(x / sigma)), 10),
        1,
      )?.sigma,
    ).toBeCloseTo(2, 2)
  })
})

test('a flat profile has no edge', () => {
  expect(
    fitEdge(
      profile(() => 120),
      1.5,
    ),
  ).toBeNull()
})
