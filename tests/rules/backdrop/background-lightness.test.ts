import { backgroundLightness } from '../../../src/rules/backdrop/background-lightness.ts'
import { background, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const near96 = { target: 96, tolerance: 2.5 }

testCases(backgroundLightness, [
  {
    what: 'inside',
    options: near96,
    measured: background({ lightnessL: 96 }),
    verdict: 'pass',
    says: ['The lightness of the backdrop is 96 L*; the spec asks for 93.5 to 98.5 L*.'],
  },
  {
    what: 'at the lower limit',
    options: near96,
    measured: background({ lightnessL: 93.5 }),
    verdict: 'pass',
  },
  {
    what: 'just under it',
    options: near96,
    measured: background({ lightnessL: 93.49 }),
    verdict: 'fail',
    says: ['93.49 L*', 'too dark', 'about 0.1 stop more light'],
  },
  {
    what: 'a range that reaches beyond white has no upper end',
    options: { target: 97, tolerance: 5 },
    measured: background({ lightnessL: 87.1 }),
    verdict: 'fail',
    says: ['the spec asks for at least 92 L*'],
  },
  {
    what: 'white itself in such a range',
    options: { target: 98, tolerance: 2 },
    measured: background({ lightnessL: 100 }),
    verdict: 'pass',
  },
  {
    what: 'at the upper limit',
    options: near96,
    measured: background({ lightnessL: 98.5 }),
    verdict: 'pass',
  },
  {
    what: 'just over it',
    options: near96,
    measured: background({ lightnessL: 98.6 }),
    verdict: 'fail',
    says: ['98.6 L*', 'too light', 'about 0.1 stop less light'],
  },
  {
    // CIE 15 and IEC 61966-2-1: from sRGB code 230 (L* 91.293) down a whole stop is L* 69.16.
    what: 'a stop too dark',
    options: { min: 91.293 },
    measured: background({ lightnessL: 69.161 }),
    verdict: 'fail',
    says: ['69.2 L*', 'at least 91.293 L*', 'about 1 stop more light'],
  },
  {
    what: 'a backdrop burnt out, which was perhaps lighter still',
    options: near96,
    measured: background({ lightnessL: 100 }),
    verdict: 'fail',
    says: ['100 L*', 'at least 0.1 stop less light'],
  },
  {
    what: 'a black backdrop has a fix too',
    options: near96,
    measured: background({ lightnessL: 0 }),
    verdict: 'fail',
    says: ['0 L*', 'too dark'],
  },
  {
    what: 'a pattern',
    options: near96,
    measured: background({ confidence: 0.4, doubts: ['backdrop-not-plain'] }),
    verdict: 'unsure',
    says: ['the backdrop is not plain enough'],
  },
  {
    what: 'a cut-out',
    options: near96,
    measured: background({ confidence: 0, doubts: ['backdrop-transparent'] }),
    verdict: 'unsure',
    says: ['cut out (transparent)'],
  },
  { what: 'unreadable file', options: near96, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: near96, measured: { background: null }, verdict: 'unsure' },
])

testRefused(backgroundLightness, [['min above max', { min: 98, max: 93 }, 'swap them']])
