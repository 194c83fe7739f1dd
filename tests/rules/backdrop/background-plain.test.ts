import { backgroundPlain } from '../../../src/rules/backdrop/background-plain.ts'
import { background, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const place = background({ plainPct: 42, confidence: 0.3, doubts: ['backdrop-not-plain'] })

testCases(backgroundPlain, [
  {
    what: 'a plain backdrop where one is required',
    options: 'required',
    measured: background({ plainPct: 99 }),
    verdict: 'pass',
    found: 'plain',
    says: ['99 % of what is behind the sitter follows one smooth color; the spec asks for a plain backdrop.'],
  },
  {
    what: 'at the limit of plain',
    options: 'required',
    measured: background({ plainPct: 90 }),
    verdict: 'pass',
  },
  {
    what: 'just under it',
    options: 'required',
    measured: background({ plainPct: 89.9, confidence: 0.7 }),
    verdict: 'unsure',
    says: ['89.9 % of what is behind the sitter'],
  },
  {
    what: 'at the limit of a place',
    options: 'required',
    measured: background({ plainPct: 70, confidence: 0.4, doubts: ['backdrop-not-plain'] }),
    verdict: 'unsure',
  },
  {
    what: 'just under that',
    options: 'required',
    measured: background({ plainPct: 69.9, confidence: 0.4, doubts: ['backdrop-not-plain'] }),
    verdict: 'fail',
    found: 'a place',
  },
  {
    what: 'an office where a plain backdrop is required',
    options: 'required',
    measured: place,
    verdict: 'fail',
    says: ['The backdrop is a place: 42 %', 'Choose a frame before the plain backdrop'],
  },
  {
    what: 'an office where it is wanted',
    options: 'refused',
    measured: place,
    verdict: 'pass',
    asked: 'a place',
  },
  {
    what: 'a wall where an office is wanted',
    options: 'refused',
    measured: background({ plainPct: 99 }),
    verdict: 'fail',
    says: ['Choose a frame with the place behind the sitter'],
  },
  {
    what: 'an office where either will do',
    options: 'optional',
    measured: place,
    verdict: 'pass',
    asked: 'either',
  },
  {
    what: 'a wall where either will do',
    options: 'optional',
    measured: background({ plainPct: 99 }),
    verdict: 'pass',
  },
  {
    what: 'either, where nobody can tell',
    options: 'optional',
    measured: background({ plainPct: 75, confidence: 0.4 }),
    verdict: 'pass',
    found: 'plain or a place',
  },
  {
    what: 'what looks plain, but not along the border of the frame',
    options: 'required',
    measured: background({ plainPct: 95, confidence: 0.4, doubts: ['backdrop-not-plain'] }),
    verdict: 'unsure',
    says: ['not plain enough'],
  },
  {
    what: 'a cut-out',
    options: 'required',
    measured: background({ plainPct: 100, confidence: 0, doubts: ['backdrop-transparent'] }),
    verdict: 'unsure',
    says: ['cut out'],
  },
  {
    what: 'a head that fills the frame',
    options: 'required',
    measured: background({ plainPct: null }),
    verdict: 'unsure',
    says: ['too little of it shows'],
  },
  { what: 'unreadable file', options: 'required', measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: 'required', measured: { background: null }, verdict: 'unsure' },
])

testRefused(backgroundPlain, [
  ['a yes', true],
  ['another word', 'plain'],
])
