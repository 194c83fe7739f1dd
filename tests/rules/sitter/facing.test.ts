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
  // Half of an error of 5 is 2.5: the deciding share in src/measure/schema/confidence.ts.
  {
    what: 'a turn well inside',
    options: turn,
    measured: face({ turnDeg: -12.4, turnErrorDeg: 5 }),
    verdict: 'pass',
    says: ['That is close to a limit: the measurement may be off by 5°.'],
  },
  {
    what: 'a turn near the limit can not be told',
    options: turn,
    measured: face({ turnDeg: -12.6, turnErrorDeg: 5 }),
    verdict: 'unsure',
    found: 'about 12.6° to the left of the frame',
    says: ['The face is turned between 7.6 and 17.6° to the left of the frame, as far as', 'check by eye'],
  },
  {
    what: 'a turn just over',
    options: turn,
    measured: face({ turnDeg: 17.4, turnErrorDeg: 5 }),
    verdict: 'unsure',
  },
  {
    what: 'a turn well over',
    options: turn,
    measured: face({ turnDeg: 17.6, turnErrorDeg: 5 }),
    verdict: 'fail',
    says: [
      'The face is turned 17.6° to the right of the frame',
      'Choose a frame in which the head angle meets',
    ],
  },
  {
    what: 'a nod to either side of level, as far as it is known',
    options: { nod: { max: 2 } },
    measured: face({ nodDeg: 1, nodErrorDeg: 6 }),
    verdict: 'unsure',
    says: ['The chin points between 5° down and 7° up, as far as can be measured.'],
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
