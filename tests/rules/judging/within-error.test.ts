import { expect, test } from 'vitest'
import { judgeBand } from '../../../src/rules/judging/band.ts'
import { type Deviation, judgeDeviation } from '../../../src/rules/judging/deviation.ts'

const inBand = (value: number, error: number | null) =>
  judgeBand({
    noun: 'The light',
    value,
    limits: { min: 6, max: 12 },
    error,
    confidence: 1,
    doubts: [],
    unit: ' lx at noon',
    shortUnit: ' lx',
    low: (by) => `Add ${by}.`,
    high: (by) => `Take ${by}.`,
  })

const toASide = (value: number, error: number, deviation: Deviation = { max: 2 }) =>
  judgeDeviation({
    noun: 'The place',
    deviation,
    unit: ' % of it',
    shortUnit: ' %',
    place: (size, sign) => (sign === 0 ? 'in the middle' : `${size} ${sign < 0 ? 'left' : 'right'}`),
    sentence: (place, sign) => `It is ${sign === 0 ? '' : 'moved '}${place}`,
    either: 'to either side',
    value,
    error,
    confidence: 1,
    doubts: [],
    low: (by) => `Right by ${by}.`,
    high: (by) => `Left by ${by}.`,
  })

// A limit of 6 and an error of 1: half of it decides, by the deciding share in src/measure/schema/confidence.ts.
test.each([
  [7.1, 'pass', 'The light is 7.1 lx at noon; the spec asks for 6 to 12 lx.'],
  [
    6.6,
    'pass',
    'The light is 6.6 lx at noon; the spec asks for 6 to 12 lx. That is close to a limit: the measurement may be off by 1 lx.',
  ],
  [
    6.4,
    'unsure',
    'The light is between 5.4 and 7.4 lx at noon, as far as can be measured. The spec asks for 6 to 12 lx; check by eye.',
  ],
  [
    5.6,
    'unsure',
    'The light is between 4.6 and 6.6 lx at noon, as far as can be measured. The spec asks for 6 to 12 lx; check by eye.',
  ],
  [
    5.4,
    'fail',
    'The light is 5.4 lx at noon; the spec asks for 6 to 12 lx. That is close to a limit: the measurement may be off by 1 lx.',
  ],
  [4.9, 'fail', 'The light is 4.9 lx at noon; the spec asks for 6 to 12 lx.'],
] as const)('%f in a band, give or take 1', (value, verdict, reason) => {
  const finding = inBand(value, 1)
  expect(finding.verdict).toBe(verdict)
  expect(finding.reason).toBe(reason)
  expect(finding.measured).toBe(`${verdict === 'unsure' ? 'about ' : ''}${value} lx`)
  expect(finding.fix !== undefined).toBe(verdict === 'fail')
})

test('without an error the value decides alone', () => {
  for (const error of [0, null]) {
    expect(inBand(6, error)).toMatchObject({ verdict: 'pass' })
    expect(inBand(5.999, error)).toMatchObject({ verdict: 'fail' })
  }
})

test.each([
  [2.2, 'It is moved between 1.2 and 3.2 % of it right'],
  [-2.2, 'It is moved between 1.2 and 3.2 % of it left'],
] as const)('%f to a side, give or take 1', (value, words) => {
  const { verdict, reason } = toASide(value, 1)
  expect(verdict).toBe('unsure')
  expect(reason).toBe(
    `${words}, as far as can be measured. The spec asks for at most 2 % to either side; check by eye.`,
  )
})

test('the truth may be to either side', () => {
  expect(toASide(0.5, 3.5).reason).toContain('It is between 3 % of it left and 4 % of it right, as far as')
  expect(toASide(-1, 1, { target: 0, tolerance: 0.8 }).reason).toContain(
    'It is between 2 % of it left and in the middle, as far as',
  )
})
