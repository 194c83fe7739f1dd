import { expect, test } from 'vitest'
import { MARGIN_PCT, sharesOf } from '../../src/framing/margin.ts'

test('limits become shares, narrowed by the margin on both sides', () => {
  const { min, max } = sharesOf('headroom', { min: 6, max: 12 }, 1)
  expect(min).toBeCloseTo((6 + MARGIN_PCT.headroom) / 100, 9)
  expect(max).toBeCloseTo((12 - MARGIN_PCT.headroom) / 100, 9)
})

test('half a margin, and none', () => {
  expect(sharesOf('headroom', { min: 6, max: 12 }, 0.5).min).toBeCloseTo(0.06 + MARGIN_PCT.headroom / 200, 9)
  expect(sharesOf('headroom', { min: 6, max: 12 }, 0).min).toBeCloseTo(0.06, 9)
})

test('a narrow band keeps half of itself', () => {
  const { min, max } = sharesOf('head-height', { min: 45, max: 46 }, 1)
  expect(min).toBeCloseTo(0.4525, 9)
  expect(max).toBeCloseTo(0.4575, 9)
})

test('one number stays that number, give or take what the rules forgive', () => {
  const { min, max } = sharesOf('centering', { min: 0, max: 0 }, 1)
  expect(min).toBeLessThan(0)
  expect(max).toBeGreaterThan(0)
  expect(max - min).toBeLessThan(2e-11)
})

test('an open end stays open, the other keeps the whole margin', () => {
  expect(sharesOf('eye-line', { min: -Infinity, max: 42 }, 1)).toMatchObject({ min: -Infinity })
  expect(sharesOf('eye-line', { min: -Infinity, max: 42 }, 1).max).toBeCloseTo(
    (42 - MARGIN_PCT['eye-line']) / 100,
    9,
  )
})
