import { facing } from '../../../src/rules/sitter/facing.ts'
import { face, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const turn = { turn: { max: 15 } }
const nod = { nod: { max: 15 } }

testCases(facing, [
  {
    what: 'straight',
    options: { ...turn, ...nod },
    verdict: 'pass',
    found: '1° to the right of the frame, level',
    asked: 'at most 15° of turn to either side, at most 15° of nod up or down',
  },
  { what: 'a turn well inside', options: turn, measured: face({ turnDeg: -12.4 }), verdict: 'pass' },
  {
    what: 'a turn near the limit can not be told',
    options: turn,
    measured: face({ turnDeg: -12.5 }),
    verdict: 'unsure',
    says: ['too close to its limit: about 12.5° to the left of the frame', 'check by eye'],
  },
  { what: 'a turn just over', options: turn, measured: face({ turnDeg: 17.5 }), verdict: 'unsure' },
  {
    what: 'a turn well over',
    options: turn,
    measured: face({ turnDeg: 17.6 }),
    verdict: 'fail',
    says: [
      'The face is turned 17.6° to the right of the frame',
      'Choose a frame in which the head angle meets',
    ],
  },
  {
    what: 'large angles read low, so the inner side counts a sixth',
    options: { turn: { max: 36 } },
    measured: face({ turnDeg: 30.1 }),
    verdict: 'unsure',
  },
  {
    what: 'a large angle further inside',
    options: { turn: { max: 36 } },
    measured: face({ turnDeg: 29.9 }),
    verdict: 'pass',
  },
  {
    what: 'a three-quarter view as asked',
    options: { turn: { target: 25, tolerance: 12 } },
    measured: face({ turnDeg: 22 }),
    verdict: 'pass',
    asked: '25° to the right of the frame, give or take 12°',
  },
  {
    what: 'a three-quarter view to the wrong side',
    options: { turn: { target: 25, tolerance: 12 } },
    measured: face({ turnDeg: -22 }),
    verdict: 'fail',
  },
  {
    what: 'a raised chin',
    options: nod,
    measured: face({ nodDeg: 21 }),
    verdict: 'fail',
    says: ['The chin points 21° up', 'the chin a little lower'],
  },
  {
    what: 'a chin on the chest',
    options: nod,
    measured: face({ nodDeg: -21 }),
    verdict: 'fail',
    says: ['The chin points 21° down', 'the chin a little higher'],
  },
  {
    what: 'a limit finer than the measurement',
    options: { turn: { max: 2.5 } },
    measured: face({ turnDeg: 0 }),
    verdict: 'unsure',
  },
  {
    what: 'a face that is turned too far to be sure of',
    options: turn,
    measured: face({ turnDeg: 40, confidence: 0.4, doubts: ['face-turned'] }),
    verdict: 'unsure',
  },
  { what: 'no face', options: turn, measured: face({ turnDeg: null, confidence: 0 }), verdict: 'unsure' },
  { what: 'unreadable file', options: turn, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: turn, measured: { face: null }, verdict: 'unsure' },
])

testRefused(facing, [
  ['nothing asked', {}],
  ['a negative limit', { turn: { max: -5 } }],
  ['a direction that is not one', { roll: { max: 5 } }],
])
