import { keySide } from '../../../src/rules/finish/key-side.ts'
import { finish, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const left = { side: 'left' }
const ratio = { ratio: { min: 0.5, max: 1 } }
const doubtful = { confidence: 0.4, doubts: ['cheek-covered' as const] }

testCases(keySide, [
  {
    what: 'the side asked for',
    options: left,
    verdict: 'pass',
    says: [
      'The left cheek in the frame is 0.6 stop brighter than the right; the spec asks for key light from the left.',
    ],
    found: 'key light from the left',
  },
  {
    what: 'the other side',
    options: { side: 'right' },
    verdict: 'fail',
    says: ['Choose a frame lit from that side', 'Do not flip the picture'],
    asked: 'key light from the right',
  },
  {
    what: 'flat light where a side is asked for',
    options: left,
    measured: finish({ keySide: 'none', keyRatioStops: 0.02 }),
    verdict: 'fail',
    says: ['Both cheeks are equally bright (less than 0.1 stop apart)'],
  },
  {
    what: 'flat light as asked',
    options: { side: 'none' },
    measured: finish({ keySide: 'none', keyRatioStops: 0.05 }),
    verdict: 'pass',
  },
  {
    what: 'light that is as good as flat',
    options: { side: 'none' },
    measured: finish({ keySide: 'left', keyRatioStops: 0.12 }),
    verdict: 'pass',
    says: ['The left cheek in the frame is 0.1 stop brighter', 'That is close to a limit'],
    found: 'flat light',
  },
  {
    what: 'light of which nobody can tell whether it is flat',
    options: { side: 'none' },
    measured: finish({ keySide: 'left', keyRatioStops: 0.22 }),
    verdict: 'unsure',
    says: [
      'One cheek is 0.1 to 0.4 stop brighter than the other, as far as can be measured.',
      'The spec asks for flat light, which is 0.2 stop at most; check by eye whether one side of the face looks darker. To allow more, ask for "ratio: { max: 0.5 }"',
    ],
    found: 'probably key light from the left',
  },
  {
    what: 'a side that is within the error',
    options: left,
    measured: finish({ keySide: 'none', keyRatioStops: 0.05 }),
    verdict: 'unsure',
    says: ['One cheek is up to 0.2 stop brighter than the other'],
    found: 'probably flat light',
  },
  {
    what: 'the other side, by little',
    options: { side: 'right' },
    measured: finish({ keySide: 'left', keyRatioStops: 0.11 }),
    verdict: 'fail',
  },
  {
    what: 'a side where flat light is asked for',
    options: { side: 'none' },
    verdict: 'fail',
    says: ['fill the darker cheek'],
  },
  {
    what: 'a ratio at its lower end',
    options: ratio,
    measured: finish({ keyRatioStops: 0.5, keyRatioErrorStops: 0 }),
    verdict: 'pass',
  },
  {
    what: 'a ratio at its upper end',
    options: ratio,
    measured: finish({ keyRatioStops: 1, keyRatioErrorStops: 0 }),
    verdict: 'pass',
  },
  {
    what: 'a ratio nearer to its end than half of the error',
    options: ratio,
    measured: finish({ keyRatioStops: 0.55 }),
    verdict: 'unsure',
    says: ['One cheek is 0.4 to 0.7 stop brighter than the other, as far as can be measured.'],
    found: 'about 0.6 stop',
  },
  {
    what: 'too flat',
    options: ratio,
    measured: finish({ keyRatioStops: 0.38 }),
    verdict: 'fail',
    says: ['Darken the darker cheek by at least 0.12 stop:'],
    asked: '0.5 to 1 stop',
  },
  {
    what: 'too deep',
    options: ratio,
    measured: finish({ keyRatioStops: 1.6 }),
    verdict: 'fail',
    says: [
      'One cheek is 1.6 stops brighter than the other; the spec asks for 0.5 to 1 stop.',
      'Lighten the darker cheek by at least 0.6 stop:',
    ],
  },
  {
    what: 'side right, ratio wrong',
    options: { ...left, ...ratio },
    measured: finish({ keyRatioStops: 1.6 }),
    verdict: 'fail',
    found: '1.6 stops',
    asked: '0.5 to 1 stop',
  },
  {
    what: 'a covered cheek',
    options: { ...left, ...ratio },
    measured: finish({ key: doubtful }),
    verdict: 'unsure',
    says: ['The side of the key light could not be measured with confidence: a cheek is covered'],
    found: 'probably key light from the left, about 0.6 stop',
  },
  {
    what: 'no face',
    options: left,
    measured: finish({ keySide: null, keyRatioStops: null, key: { confidence: 0, doubts: ['no-face'] } }),
    verdict: 'unsure',
    found: null,
  },
  { what: 'unreadable file', options: left, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: left, measured: { finish: null }, verdict: 'unsure' },
])

testRefused(keySide, [
  ['nothing asked', {}],
  ['an unknown side', { side: 'top' }],
  ['a ratio that nothing fits', { ratio: { min: 2, max: 1 } }, 'min is 2 and max is 1'],
])
