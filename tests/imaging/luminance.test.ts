import { wcagLuminance } from 'culori'
import { expect, test } from 'vitest'
import { LUMINANCE, lumaAt, tonesIn } from '../../src/imaging/luminance.ts'

test('luminance is the Y of culori, an independent library', () => {
  for (const [r, g, b] of [
    [194, 150, 130],
    [115, 82, 68],
    [12, 200, 90],
  ] as const) {
    const y = wcagLuminance({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 })
    const picture = { data: Uint8Array.of(0, 0, 0, r, g, b), width: 2, height: 1 }
    expect(tonesIn(picture, LUMINANCE)[1]).toBeCloseTo(y, 3)
  }
})

test('luma weighs codes', () => {
  const picture = { data: Uint8Array.of(0, 0, 0, 100, 100, 100, 0, 200, 0), width: 3, height: 1 }
  expect(lumaAt(picture, 1)).toBeCloseTo(100, 10)
  // ITU-R BT.709-6, item 3.2.
  expect(lumaAt(picture, 2)).toBeCloseTo(0.7152 * 200, 10)
})
