import { describe, expect, test } from 'vitest'
import { D50, type Primaries, SRGB, toXyzD50 } from '../../src/color/colorants.ts'

const D65 = [0.3127, 0.329] as const
const ADOBE: Primaries = { red: [0.64, 0.33], green: [0.21, 0.71], blue: [0.15, 0.06], white: D65 }
const P3: Primaries = { red: [0.68, 0.32], green: [0.265, 0.69], blue: [0.15, 0.06], white: D65 }
const ROMM: Primaries = {
  red: [0.7347, 0.2653],
  green: [0.1596, 0.8404],
  blue: [0.0366, 0.0001],
  white: [0.3457, 0.3585],
}

// rXYZ, gXYZ and bXYZ. The first row: the profile "sRGB IEC61966-2.1" of 1998, the commonest in pictures; the others
// worked from the primaries of each definition.
describe('colorants under D50', () => {
  test.each([
    [
      'sRGB, as its profile of 1998 has them',
      SRGB,
      [
        [0.43607, 0.22249, 0.01392],
        [0.38515, 0.71687, 0.09708],
        [0.14307, 0.06061, 0.7141],
      ],
    ],
    [
      'sRGB',
      SRGB,
      [
        [0.43604, 0.22248, 0.01392],
        [0.38511, 0.71691, 0.09707],
        [0.14305, 0.06061, 0.71391],
      ],
    ],
    [
      'Adobe RGB (1998)',
      ADOBE,
      [
        [0.60974, 0.31111, 0.01947],
        [0.20527, 0.62568, 0.06087],
        [0.14919, 0.06321, 0.74456],
      ],
    ],
    [
      'Display P3',
      P3,
      [
        [0.51512, 0.24119, -0.00105],
        [0.29198, 0.69224, 0.04188],
        [0.1571, 0.06657, 0.78407],
      ],
    ],
    [
      'ROMM RGB',
      ROMM,
      [
        [0.79767, 0.28804, 0],
        [0.13519, 0.71187, 0],
        [0.03134, 0.00009, 0.8249],
      ],
    ],
  ] as const)('%s', (_, primaries, colorants) => {
    const rows = toXyzD50(primaries)
    for (const [column, colorant] of colorants.entries()) {
      for (const [row, value] of colorant.entries()) {
        expect(Math.abs((rows[row]?.[column] ?? Number.NaN) - value)).toBeLessThan(3e-4)
      }
    }
  })

  test.each([SRGB, ADOBE, P3, ROMM])('sum up to the white: %j', (primaries) => {
    for (const [row, [r, g, b]] of toXyzD50(primaries).entries()) {
      expect(r + g + b).toBeCloseTo(D50[row] as number, 12)
    }
  })
})
