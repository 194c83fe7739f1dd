import { wcagLuminance } from 'culori'
import { expect, test } from 'vitest'
import { linearLight, luminanceAt } from '../../src/imaging/luminance.ts'

// IEC 61966-2-1: worked values by its decoding function.
test.each([
  [0, 0],
  [118, 0.181164],
  [255, 1],
])('code %i is %f of the light', (code, light) => expect(linearLight(code)).toBeCloseTo(light, 6))

test('luminance is the Y of culori, an independent library', () => {
  for (const [r, g, b] of [
    [194, 150, 130],
    [115, 82, 68],
    [12, 200, 90],
  ] as const) {
    const y = wcagLuminance({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 })
    const picture = { data: Uint8Array.of(0, 0, 0, r, g, b), width: 2, height: 1 }
    expect(luminanceAt(picture, 1)).toBeCloseTo(y, 3)
  }
})
