import { describe, expect, test } from 'vitest'
import { median } from '../../src/numbers/quantile.ts'
import { robust, score } from '../../src/numbers/robust.ts'

// Data and robust results: P. J. Rousseeuw and M. Hubert, "Robust statistics for outlier detection", WIREs Data Mining
// and Knowledge Discovery 1(1), 2011, pages 73 to 79: five measurements of a length, the same with a misplaced decimal
// point, and a MAD (times 1.483) of 0.044 for both.
const CLEAN = [6.27, 6.34, 6.25, 6.31, 6.28]
const SPOILED = [6.27, 6.34, 6.25, 63.1, 6.28]

describe('Rousseeuw and Hubert 2011', () => {
  test.each([CLEAN, SPOILED])('median 6.28 and spread 0.044 (%s, %s, ...)', (...values) => {
    const { median, spread } = robust(values)
    expect(median).toBeCloseTo(6.28, 10)
    expect(spread).toBeCloseTo(0.044, 3)
  })

  test('the misplaced point is an outlier, and nothing else is', () => {
    const set = robust(SPOILED)
    expect(SPOILED.filter((value) => Math.abs(score(value, set)) > 3.5)).toEqual([63.1])
    expect(CLEAN.filter((value) => Math.abs(score(value, robust(CLEAN))) > 3.5)).toEqual([])
  })
})

// Iglewicz and Hoaglin 1993 as quoted in the NIST/SEMATECH e-Handbook, 1.3.5.17: M = 0.6745 (x - median) / MAD.
test('the score is the modified z-score', () => {
  const values = [2.1, 2.6, 2.4, 2.5, 2.3, 9.7]
  const middle = median(values)
  const mad = median(values.map((value) => Math.abs(value - middle)))
  for (const value of values) {
    const published = (0.6745 * (value - middle)) / mad
    expect(Math.abs(score(value, robust(values)) - published)).toBeLessThan(1e-4 * Math.abs(published) + 1e-9)
  }
})

test('equal values: a floor keeps small differences small; without one any difference is infinite', () => {
  const set = robust([5, 5, 5, 5])
  expect(score(5.2, set, 0.5)).toBeCloseTo(0.4)
  expect(score(4, set)).toBe(-Infinity)
  expect(score(5, set)).toBe(0)
})
