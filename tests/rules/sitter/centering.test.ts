import { centering } from '../../../src/rules/sitter/centering.ts'
import { face, head, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const within = { max: 2 }

testCases(centering, [
  {
    what: 'inside',
    options: within,
    measured: head({ offCenterPct: 1.2 }),
    verdict: 'pass',
    says: [
      'The midpoint of the eyes is 1.2 % of the frame width right of center; the spec asks for at most 2 % to either side.',
    ],
    found: '1.2 % right of center',
  },
  {
    what: 'at the center',
    options: within,
    measured: head({ offCenterPct: 0 }),
    verdict: 'pass',
    says: ['is at the center;'],
  },
  { what: 'at the right limit', options: within, measured: head({ offCenterPct: 2 }), verdict: 'pass' },
  {
    // 1.2 % of 2400 px is 28.8 px.
    what: 'too far right',
    options: within,
    measured: head({ offCenterPct: 3.2 }),
    verdict: 'fail',
    says: ['3.2 % of the frame width right of center', 'Move the crop to the right by 29 px.'],
  },
  { what: 'at the left limit', options: within, measured: head({ offCenterPct: -2 }), verdict: 'pass' },
  {
    what: 'a hair too far left',
    options: within,
    measured: head({ offCenterPct: -2.01 }),
    verdict: 'fail',
    says: ['2.01 % of the frame width left of center', 'Move the crop to the left by 1 px.'],
  },
  {
    what: 'a target beside the center, met',
    options: { target: -3, tolerance: 0.5 },
    measured: head({ offCenterPct: -3.4 }),
    verdict: 'pass',
    says: ['the spec asks for 3 % left of center, give or take 0.5 %'],
  },
  {
    what: 'a target beside the center, missed by the middle',
    options: { target: -3, tolerance: 0.5 },
    measured: head({ offCenterPct: 0 }),
    verdict: 'fail',
    says: ['is at the center;', 'Move the crop to the right by 60 px.'],
  },
  {
    what: 'nothing allowed, and a little off',
    options: { max: 0 },
    measured: head({ offCenterPct: 0.004 }),
    verdict: 'fail',
    says: ['0.004 %'],
  },
  {
    what: 'eyes not sure',
    options: within,
    measured: face({ confidence: 0.3, doubts: ['face-uncertain'] }),
    verdict: 'unsure',
    says: ['not with confidence'],
  },
  {
    what: 'a lost crown does not matter',
    options: within,
    measured: head({ offCenterPct: 1, confidence: 0.1, doubts: ['crown-implausible'] }),
    verdict: 'pass',
  },
  { what: 'unreadable file', options: within, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: within, measured: { head: null }, verdict: 'unsure' },
])

testRefused(centering, [
  ['a negative limit', { max: -1 }],
  ['a band', { min: -1, max: 1 }],
])
