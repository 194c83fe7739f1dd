import { describe, expect, test } from 'vitest'
import { jawRoughness } from '../../../src/measure/head/beard.ts'
import { chinPatch } from '../../../src/measure/head/chin-patch.ts'
import { seeded } from '../../random.ts'
import { type Color, chinGeometry, painted } from './drawn-chin.ts'

const LEFT = { across: -30, along: 85 }
const RIGHT = { across: 30, along: 85 }

function roughness(color: (across: number, along: number) => Color, cell = 1): number {
  const geometry = chinGeometry(cell)
  const picture = painted(geometry, ({ across, along }) => color(across, along))
  return jawRoughness(chinPatch(picture, geometry), [LEFT, RIGHT])
}
const gray = (code: number): Color => [code, code, code]

describe('jawRoughness', () => {
  test('plain and evenly shaded skin has none', () => {
    expect(roughness(() => gray(140))).toBeLessThan(0.001)
    expect(roughness((across, along) => gray(140 + 0.4 * across - 0.5 * along))).toBeLessThan(0.01)
  })

  test('stripes of known contrast', () => {
    // A wave of amplitude A and period p differs from its mean on a circle of radius r by A (1 - J0(2 pi r / p)): the
    // Bessel function is the mean of a cosine over a circle (Abramowitz & Stegun 9.1.18, from memory). A deviates by
    // A / sqrt(2); one code is 0.39 L* at mid-gray, whose L* is 50 (CIE 15:2004). Cells and the reading between them
    // take up to a fifth off.
    const bessel = (x: number) =>
      Array.from({ length: 360 }, (_, i) => Math.cos(x * Math.cos((i * Math.PI) / 180))).reduce(
        (sum, value) => sum + value / 360,
        0,
      )
    const waves = (codes: number) => (across: number) =>
      gray(Math.round(119 + codes * Math.sin((2 * Math.PI * across) / 5)))
    const expected = (codes: number) =>
      ((0.39 * codes) / Math.SQRT2) * ((1 - bessel((2 * Math.PI * 3.5) / 5)) / 50)
    for (const codes of [8, 16]) {
      const share = roughness(waves(codes)) / expected(codes)
      expect(share).toBeGreaterThan(0.8)
      expect(share).toBeLessThan(1.05)
    }
  })

  test('the same in a file of any size, for hairs that both can show', () => {
    const stripes = (across: number) => gray(Math.round(119 + 15 * Math.sin((2 * Math.PI * across) / 5)))
    const [small, large] = [roughness(stripes, 1.01), roughness(stripes, 2.6)]
    expect(large / small).toBeGreaterThan(0.85)
    expect(large / small).toBeLessThan(1.2)
  })

  test('hair over one side of the jaw is no beard', () => {
    const random = seeded(5)
    const noisy = () => gray(Math.round(60 + 120 * random()))
    expect(roughness((across) => (across > 10 ? noisy() : gray(140)))).toBeLessThan(0.001)
    expect(roughness(noisy)).toBeGreaterThan(0.1)
  })
})
