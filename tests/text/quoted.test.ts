import { expect, test } from 'vitest'
import { quoted } from '../../src/text/quoted.ts'

test('short text stays whole', () => {
  expect(quoted('sRGB')).toBe('"sRGB"')
  expect(quoted('x'.repeat(120))).toBe(`"${'x'.repeat(120)}"`)
})

test('long text is cut, never through a character', () => {
  expect(quoted('x'.repeat(121))).toBe(`"${'x'.repeat(119)}…"`)
  expect(quoted('😀'.repeat(200))).toBe(`"${'😀'.repeat(119)}…"`)
})
