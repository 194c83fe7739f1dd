import { expect, test } from 'vitest'
import { backgroundUnevenness } from '../../../src/rules/backdrop/background-unevenness.ts'
import { stopsBetween } from '../../../src/rules/judging/stops.ts'
import { background, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const even = { max: 4 }

testCases(backgroundUnevenness, [
  {
    what: 'inside',
    options: even,
    measured: background({ unevennessL: 1.5 }),
    verdict: 'pass',
    says: ['The spread of lightness over the backdrop is 1.5 L*; the spec asks for at most 4 L*.'],
  },
  { what: 'at the limit', options: even, measured: background({ unevennessL: 4 }), verdict: 'pass' },
  {
    what: 'just over it',
    options: even,
    measured: background({ unevennessL: 4.02 }),
    verdict: 'fail',
    says: ['4.02 L*', 'Light the backdrop evenly', 'flatten the gradient'],
  },
  { what: 'perfectly even', options: { max: 0 }, measured: background({ unevennessL: 0 }), verdict: 'pass' },
  {
    what: 'a fall-off of 1/3 stop where 1/10 is allowed',
    options: { max: 2.45 },
    measured: background({ unevennessL: 7.95 }),
    verdict: 'fail',
    says: ['at most 2.45 L*'],
  },
  {
    what: 'too little backdrop',
    options: even,
    measured: background({ confidence: 0.2, doubts: ['backdrop-too-small'] }),
    verdict: 'unsure',
    says: ['too little of the backdrop'],
  },
  { what: 'unreadable file', options: even, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: even, measured: { background: null }, verdict: 'unsure' },
])

testRefused(backgroundUnevenness, [
  ['a negative limit', { max: -1 }],
  ['a lower limit', { min: 1 }],
])

// CIE 15:2004 with IEC 61966-2-1: sRGB code 230 is L* 91.293.
test('the stops that the texts name', () => {
  expect(stopsBetween(91.293, 91.293 - 7.95)).toBeCloseTo(-1 / 3, 3)
  expect(stopsBetween(91.293, 91.293 - 2.45)).toBeCloseTo(-1 / 10, 3)
  expect(backgroundUnevenness.text.measures).toContain('1/3 stop from an sRGB value of 230 is 7.95 L*')
  expect(backgroundUnevenness.text.measures).toContain('1/10 stop 2.45 L*')
})
