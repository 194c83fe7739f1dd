import { expect, test } from 'vitest'
import { SURE } from '../../../src/measure/schema/confidence.ts'
import { judgeLimits } from '../../../src/rules/judging/judge-limits.ts'

const judge = (value: number | null, confidence = 1) =>
  judgeLimits({
    noun: 'The light',
    value,
    limits: { min: 6, max: 12 },
    confidence,
    doubts: ['backdrop-too-small', 'backdrop-not-plain'],
    found: (number) => ({ short: `${number} lx`, long: `The light has ${number} lux` }),
    asked: { short: '6 to 12 lx', long: '6 to 12 lux' },
    low: (by) => `Add ${by}.`,
    high: (by) => `Take ${by}.`,
  })

test('pass, and fail on either side with the fix', () => {
  const words = { measured: '7 lx', expected: '6 to 12 lx' }
  expect(judge(7)).toEqual({
    verdict: 'pass',
    ...words,
    reason: 'The light has 7 lux; the spec asks for 6 to 12 lux.',
    figure: { value: 7, min: 6, max: 12 },
  })
  expect(judge(5)).toMatchObject({ verdict: 'fail', fix: 'Add 1.' })
  expect(judge(14)).toMatchObject({ verdict: 'fail', fix: 'Take 2.' })
})

test('doubt comes before the number', () => {
  expect(judge(7, SURE).verdict).toBe('pass')
  for (const value of [7, 5, 14])
    expect(judge(value, SURE - 0.001)).toEqual({
      verdict: 'unsure',
      measured: `about ${value} lx`,
      expected: '6 to 12 lx',
      reason:
        'The light could not be measured with confidence: too little of the backdrop shows in the frame; the backdrop is not plain enough to tell it from the sitter. The spec asks for 6 to 12 lux; check by eye.',
      figure: { value, min: 6, max: 12 },
    })
})

test('no number is no pass', () => {
  for (const value of [null, Number.NaN, Infinity, -Infinity])
    expect(judge(value)).toMatchObject({ verdict: 'unsure', measured: null })
  expect(judge(null)).not.toHaveProperty('figure')
})

test('a confidence that is no number is none', () => {
  expect(judge(7, Number.NaN).verdict).toBe('unsure')
})
