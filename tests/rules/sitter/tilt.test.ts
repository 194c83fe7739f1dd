import { expect, test } from 'vitest'
import { TILT_LEAST_EYE_DISTANCE_PX } from '../../../src/measure/schema/gates.ts'
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
    what: 'eyes just far enough apart',
    options: within,
    measured: face({ eyeDistancePx: 60 }),
    verdict: 'pass',
  },
  {
    what: 'eyes too close together to tell',
    options: within,
    measured: face({ tiltDeg: 0.3, eyeDistancePx: 59.97 }),
    verdict: 'unsure',
    says: ['the eyes are 59.97 px apart, and 60 px are needed', 'check by eye'],
    found: 'about 0.3° clockwise',
  },
  {
    what: 'a tilt between too close eyes is no fail either',
    options: within,
    measured: face({ tiltDeg: 9, eyeDistancePx: 30 }),
    verdict: 'unsure',
  },
  {
    what: 'an unknown distance',
    options: within,
    measured: face({ eyeDistancePx: null }),
    verdict: 'unsure',
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

// Plane trigonometry: the angle that one pixel of height spans over the distance between the eyes.
test('the least eye distance is the one at which a pixel of error stays under a degree', () => {
  const degrees = (Math.atan(1 / TILT_LEAST_EYE_DISTANCE_PX) * 180) / Math.PI
  expect(degrees).toBeLessThan(1)
  expect((Math.atan(1 / 90) * 180) / Math.PI).toBeCloseTo(0.64, 2)
  expect(tilt.text.measures).toContain('0.6° at 90 px')
})
