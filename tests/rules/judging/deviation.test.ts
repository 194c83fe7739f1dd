import { expect, test } from 'vitest'
import { type Deviation, deviationLimits, judgeDeviation } from '../../../src/rules/judging/deviation.ts'

const judge = (value: number, deviation: Deviation) =>
  judgeDeviation({
    noun: 'The place',
    deviation,
    unit: ' %',
    shortUnit: ' %',
    place: (size, sign) => (sign === 0 ? 'middle' : `${size} ${sign < 0 ? 'left' : 'right'}`),
    sentence: (place) => `It is ${place}`,
    either: 'to either side',
    value,
    confidence: 1,
    doubts: [],
    low: (by) => `Right by ${by}.`,
    high: (by) => `Left by ${by}.`,
  })

test('limits', () => {
  expect(deviationLimits({ max: 2 })).toEqual({ min: -2, max: 2 })
  expect(deviationLimits({ target: -3, tolerance: 1 })).toEqual({ min: -4, max: -2 })
})

test.each([
  [1.5, { max: 2 }, 'pass', 'It is 1.5 % right; the spec asks for at most 2 % to either side.'],
  [-1.5, { max: 2 }, 'pass', 'It is 1.5 % left; the spec asks for at most 2 % to either side.'],
  [0.01, { max: 2 }, 'pass', 'It is middle; the spec asks for at most 2 % to either side.'],
  [-2.001, { max: 2 }, 'fail', 'It is 2.001 % left; the spec asks for at most 2 % to either side.'],
  [4e-7, { max: 0 }, 'fail', 'It is 0.0000004 % right; the spec asks for at most 0 % to either side.'],
  [0, { target: 3, tolerance: 1 }, 'fail', 'It is middle; the spec asks for 3 % right, give or take 1 %.'],
  [0, { target: 0, tolerance: 1 }, 'pass', 'It is middle; the spec asks for middle, give or take 1 %.'],
] as const)('%f of %j', (value, deviation, verdict, reason) => {
  const finding = judge(value, deviation)
  expect(finding.verdict).toBe(verdict)
  expect(finding.reason).toBe(reason)
})
