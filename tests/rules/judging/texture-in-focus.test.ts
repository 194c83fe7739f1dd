import { expect, test } from 'vitest'
import { textureInFocusPct } from '../../../src/rules/judging/texture-in-focus.ts'
import { GOOD } from './cases.ts'

/** Contrast, after a blur, of a pattern of waves whose power falls with the square of frequency, between the two blurs of the texture's band. */
function contrast(blurPx: number): number {
  let power = 0
  // A grid of frequencies in two dimensions, cycles per px; sigma in space blurs by exp(-2 pi^2 sigma^2 f^2).
  for (let u = 0.0025; u < 1; u += 0.005) {
    for (let v = 0.0025; v < 1; v += 0.005) {
      const f2 = u * u + v * v
      const left = (sigma: number) => Math.exp(-2 * Math.PI ** 2 * sigma ** 2 * f2)
      power += ((left(1.2) - left(2.4)) * left(blurPx)) ** 2 / f2
    }
  }
  return Math.sqrt(power)
}

test.each([1, 2, 3, 5])('a blur by %d px takes as much as it takes of waves added up', (blurPx) => {
  const { finish } = GOOD
  if (!finish?.focus) throw new Error('no focus')
  const eyePx = Math.hypot(0.75, blurPx)
  const inFocus = textureInFocusPct({ ...finish, skinTexturePct: 0.1, focus: { ...finish.focus, eyePx } })
  expect((inFocus ?? 0) / ((0.1 * contrast(0)) / contrast(blurPx))).toBeCloseTo(1, 2)
})

test('eyes that are sharper than most do not take any away', () => {
  const { finish } = GOOD
  if (!finish?.focus) throw new Error('no focus')
  const sharp = { ...finish, skinTexturePct: 0.3, focus: { ...finish.focus, eyePx: 0.5 } }
  expect(textureInFocusPct(sharp)).toBe(0.3)
})
