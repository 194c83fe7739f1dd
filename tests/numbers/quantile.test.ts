import { expect, test } from 'vitest'
import { median, quantile, upperMedian } from '../../src/numbers/quantile.ts'

test('quantile takes the nearest rank and leaves the list as it was', () => {
  const values = Float32Array.from([5, 1, 3])
  expect([quantile(values, 0), quantile(values, 0.5), quantile(values, 1)]).toEqual([1, 3, 5])
  expect([...values]).toEqual([5, 1, 3])
  expect(quantile(new Float32Array(0), 0.5)).toBe(0)
})

test('of two middle values the median is their mean, the upper median the larger', () => {
  expect([median([4, 1, 9, 2]), upperMedian(Float32Array.of(4, 1, 9, 2))]).toEqual([3, 4])
  expect([median([4, 1, 9]), upperMedian(Float32Array.of(4, 1, 9))]).toEqual([4, 4])
})

test('no values, no median', () => {
  expect(() => median([])).toThrow(RangeError)
})
