import { tilt } from '../../../src/rules/sitter/tilt.ts'
import { face, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const within = { max: 2 }

testCases(tilt, [
  {
    what: 'inside',
    options: within,
    measured: face({ tiltDeg: 0.3 }),
    verdict: 'pass',
    says: ['The eye line is tilted 0.3° clockwise; the spec asks for at most 2° either way.'],
  },
  { what: 'level', options: within, measured: face({ tiltDeg: 0 }), verdict: 'pass', says: ['is level;'] },
  { what: 'at the clockwise limit', options: within, measured: face({ tiltDeg: 2 }), verdict: 'pass' },
  {
    what: 'too far clockwise',
    options: within,
    measured: face({ tiltDeg: 4.1 }),
    verdict: 'fail',
    says: ['tilted 4.1° clockwise', 'Rotate the picture counterclockwise by at least 2.1°, then crop again.'],
    found: '4.1° clockwise',
  },
  {
    what: 'at the counterclockwise limit',
    options: within,
    measured: face({ tiltDeg: -2 }),
    verdict: 'pass',
  },
  {
    what: 'just too far counterclockwise',
    options: within,
    measured: face({ tiltDeg: -2.03 }),
    verdict: 'fail',
    says: ['tilted 2.03° counterclockwise', 'Rotate the picture clockwise by at least 0.1°'],
  },
  {
    what: 'a lean that is asked for',
    options: { target: 5, tolerance: 1 },
    measured: face({ tiltDeg: 0.3 }),
    verdict: 'fail',
    says: [
      'the spec asks for 5° clockwise, give or take 1°',
      'Rotate the picture clockwise by at least 3.7°',
    ],
  },
  {
    what: 'a limit nearer than half of the error',
    options: within,
    measured: face({ tiltDeg: -1.7, tiltErrorDeg: 0.8 }),
    verdict: 'unsure',
    says: ['The eye line is tilted between 0.9 and 2.5° counterclockwise, as far as', 'check by eye'],
    found: 'about 1.7° counterclockwise',
  },
  {
    what: 'a face that is not sure',
    options: within,
    measured: face({ confidence: 0.4, doubts: ['face-uncertain'] }),
    verdict: 'unsure',
    says: ['The tilt could not be measured with confidence'],
  },
  { what: 'no face', options: within, measured: face({ tiltDeg: null, confidence: 0 }), verdict: 'unsure' },
  { what: 'unreadable file', options: within, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: within, measured: { face: null }, verdict: 'unsure' },
])

testRefused(tilt, [['a negative limit', { max: -2 }]])
