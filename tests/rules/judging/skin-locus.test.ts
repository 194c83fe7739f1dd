import { expect, test } from 'vitest'
import { SKIN_SPREAD, skinCastOf } from '../../../src/rules/judging/skin-locus.ts'

test('skin as it mostly is has no cast, in every tone', () => {
  // Medians of thirds of 51 studio portraits by lightness (Face Research Lab London Set, doi:10.6084/m9.figshare.5047666.v5).
  for (const [L, a, b] of [
    [32.6, 8.1, 11],
    [58.4, 11, 12],
    [64.9, 13.2, 14],
    [71.5, 10, 9.7],
  ] as const) {
    const cast = skinCastOf({ L, a, b })
    expect(Math.abs(cast.a)).toBeLessThan(2 * SKIN_SPREAD.a)
    expect(Math.abs(cast.b)).toBeLessThan(2 * SKIN_SPREAD.b)
    expect(cast.error).toBe(0)
  }
})

test('a cast is told in full, whatever the tone', () => {
  for (const L of [28, 45, 60, 72]) {
    const [plain, cast] = [skinCastOf({ L, a: 12, b: 12 }), skinCastOf({ L, a: 20, b: 4 })]
    expect(cast.a - plain.a).toBeCloseTo(8)
    expect(cast.b - plain.b).toBeCloseTo(-8)
  }
})

test('beyond the tones that are known the error grows, and the curve goes nowhere', () => {
  expect(skinCastOf({ L: 86, a: 8, b: 5 })).toMatchObject({ error: 3 })
  expect(skinCastOf({ L: 14, a: 5, b: 5 })).toMatchObject({ error: 3 })
  expect(skinCastOf({ L: 90, a: 8, b: 5 }).a).toBe(skinCastOf({ L: 80, a: 8, b: 5 }).a)
})
