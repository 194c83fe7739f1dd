import { describe, expect, test } from 'vitest'
import { adobeRgbToLinear, linearLight, rommToLinear, srgbToLinear } from '../../src/color/transfer.ts'

// Half of full code, decoded: worked from the definitions of IEC 61966-2-1, Adobe RGB (1998) and ISO 22028-2.
test.each([
  ['sRGB', srgbToLinear, 0.21404],
  ['Adobe RGB (1998)', adobeRgbToLinear, 0.21776],
  ['ROMM RGB', rommToLinear, 0.28717],
] as const)('%s: 0.5 is %f of the light', (_, curve, light) => {
  expect(curve(0.5)).toBeCloseTo(light, 5)
  expect(curve(0)).toBe(0)
  expect(curve(1)).toBeCloseTo(1, 12)
})

describe('the two pieces of a curve meet', () => {
  // Published constants are rounded, so the pieces meet within 1e-6 only.
  test.each([
    ['sRGB', srgbToLinear, 0.04045],
    ['ROMM RGB', rommToLinear, 16 / 512],
  ] as const)('%s', (_, curve, joint) => {
    expect(Math.abs(curve(joint + 1e-9) - curve(joint - 1e-9))).toBeLessThan(1e-6)
  })
})

test('sRGB code 118 is the 18 % gray card', () => {
  // IEC 61966-2-1: 18 % reflectance is code 117.646.
  expect(srgbToLinear(117.646 / 255)).toBeCloseTo(0.18, 5)
  expect(srgbToLinear(118 / 255)).toBeCloseTo(0.181164, 6)
})

// IEC 61966-2-1: worked values by its decoding function.
test.each([
  [0, 0],
  [118, 0.181164],
  [255, 1],
])('code %i is %f of the light', (code, light) => expect(linearLight(code)).toBeCloseTo(light, 6))
