import { expect, test } from 'vitest'
import { bandText, emptyRange, judgeBand, limitsOf, unfitPercent } from '../../../src/rules/judging/band.ts'

test.each([
  [{ min: 6, max: 12 }, { min: 6, max: 12 }, '6 to 12 %'],
  [{ min: 6 }, { min: 6, max: Infinity }, 'at least 6 %'],
  [{ max: 12 }, { min: -Infinity, max: 12 }, 'at most 12 %'],
  [{ target: 9, tolerance: 3 }, { min: 6, max: 12 }, '6 to 12 %'],
  [{ target: 9, tolerance: 0 }, { min: 9, max: 9 }, '9 %'],
  [{ min: 5.97, max: 12.25 }, { min: 5.97, max: 12.25 }, '5.97 to 12.25 %'],
])('%j', (band, limits, text) => {
  expect(limitsOf(band)).toEqual(limits)
  expect(bandText(limits, ' %')).toBe(text)
  expect(emptyRange(limits)).toBeNull()
})

test('a range that nothing fits is told', () => {
  expect(emptyRange({ min: 12, max: 6 })).toBe('min is 12 and max is 6, so nothing fits; swap them.')
})

test.each([
  [{ min: 0.06, max: 0.12 }, '0.12 % is next to nothing; for 12 % write 12.'],
  [{ max: 0.12 }, '0.12 % is next to nothing; for 12 % write 12.'],
  [{ target: 0.5, tolerance: 0.07 }, '0.57 % is next to nothing; for 57 % write 57.'],
  [{ min: 12, max: 6 }, 'swap them'],
])('%j is no range of percent', (band, told) => {
  expect(unfitPercent(limitsOf(band))).toContain(told)
})

test.each([[{ min: 0.5, max: 12 }], [{ min: 0.1 }], [{ max: 0 }], [{ max: 1 }], [{ min: 0, max: 12 }]])(
  '%j is one',
  (band) => {
    expect(unfitPercent(limitsOf(band))).toBeNull()
  },
)

const judge = (value: number, band: Parameters<typeof limitsOf>[0]) =>
  judgeBand({
    noun: 'Headroom',
    unit: ' %',
    value,
    limits: limitsOf(band),
    confidence: 1,
    doubts: [],
    low: (by) => `Add ${by}.`,
    high: (by) => `Take ${by}.`,
  })

test('a limit that float arithmetic puts off by a hair is met', () => {
  expect(judge(0.3, { target: 0.1, tolerance: 0.2 }).verdict).toBe('pass')
  expect(0.1 + 0.2).not.toBe(0.3)
})

test('a miss tells how far it is to the nearer end', () => {
  expect(judge(4, { min: 6, max: 12 }).fix).toBe('Add 2.')
  expect(judge(15, { min: 6, max: 12 }).fix).toBe('Take 3.')
})

test('a doubt without a code still has its sentence', () => {
  const finding = judgeBand({
    noun: 'Headroom',
    unit: ' %',
    value: 9,
    limits: { min: 6, max: 12 },
    confidence: 0.1,
    doubts: [],
    low: () => '',
    high: () => '',
  })
  expect(finding.reason).toContain('the measurement is weak')
})
