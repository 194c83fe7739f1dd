import { expect, test } from 'vitest'
import { rgbToLab } from '../../../src/color/lab.ts'
import { hueWord, oppositeHue } from '../../../src/rules/backdrop/hue.ts'

const degrees = (a: number, b: number) => (Math.atan2(b, a) * 180) / Math.PI

// CIELAB (D50) of the sRGB primaries and secondaries: IEC 61966-2-1 and CIE 15, worked with two color libraries.
test.each([
  ['red (warm)', 80.805, 69.891],
  ['yellow (warm)', -15.75, 93.394],
  ['green', -79.271, 80.995],
  ['blue-green (cool)', -50.657, -14.962],
  ['blue (cool)', 68.287, -112.03],
  ['magenta', 93.54, -60.501],
])('%s', (word, a, b) => {
  expect(hueWord(degrees(a, b))).toBe(word)
})

// CSS Color Module Level 4 names these sRGB codes.
test.each([
  ['orange (warm)', [255, 165, 0]],
  ['pink', [255, 192, 203]],
  ['blue (cool)', [173, 216, 230]],
  ['green', [144, 238, 144]],
] as const)('the CSS color near %s', (word, [r, g, b]) => {
  const lab = rgbToLab(r, g, b)
  expect(hueWord(degrees(lab.a, lab.b))).toBe(word)
})

test('the whole circle has names, and turns do not matter', () => {
  for (let hue = -720; hue <= 720; hue += 0.5) expect(hueWord(hue)).toBe(hueWord(hue + 360))
  expect(hueWord(359.9)).toBe('pink')
  expect(oppositeHue(95)).toBe('blue (cool)')
  expect(oppositeHue(275)).toBe('yellow (warm)')
})
