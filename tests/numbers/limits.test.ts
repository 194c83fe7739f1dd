import { expect, test } from 'vitest'
import { sideOf } from '../../src/numbers/limits.ts'

test.each([
  [6, 'inside'],
  [12, 'inside'],
  [9, 'inside'],
  [5.99999999, 'low'],
  [12.00000001, 'high'],
  [-Infinity, 'low'],
] as const)('%f against 6 to 12 is %s', (value, side) => {
  expect(sideOf(value, { min: 6, max: 12 })).toBe(side)
})

test('ends that float arithmetic puts off by a hair still count', () => {
  expect(sideOf(0.3, { min: 0.1 + 0.2, max: 1 })).toBe('inside')
  expect(sideOf(1 - 0.9, { min: 0, max: 0.1 - 1e-17 })).toBe('inside')
})

test('open ends hold everything', () => {
  expect(sideOf(-1e300, { min: -Infinity, max: 12 })).toBe('inside')
  expect(sideOf(1e300, { min: 6, max: Infinity })).toBe('inside')
})
