import type { Box } from '../../../src/measure/schema/measurements.ts'
import { oneFace } from '../../../src/rules/sitter/one-face.ts'
import { face, testCases, testRefused, UNREAD } from '../judging/cases.ts'

// The good portrait's face is 0.36 of the frame high.
const other = (height: number, score: number): { box: Box; score: number } => ({
  box: { x: 0.7, y: 0.3, width: height, height },
  score,
})

testCases(oneFace, [
  {
    what: 'one',
    options: true,
    verdict: 'pass',
    says: ['There is 1 face in the picture; the spec asks for 1.'],
    found: '1 face',
    asked: '1 face',
  },
  {
    what: 'two',
    options: true,
    measured: face({ count: 2, others: [other(0.3, 0.9)] }),
    verdict: 'fail',
    says: ['There are 2 faces', 'Choose a frame with the sitter alone, or crop out the other person.'],
  },
  {
    what: 'two and a badge',
    options: true,
    measured: face({ count: 3, others: [other(0.3, 0.9), other(0.03, 0.9)] }),
    verdict: 'fail',
    says: ['There are 2 faces'],
  },
  {
    what: 'the other one as weak as it may be to count',
    options: true,
    measured: face({ count: 2, others: [other(0.3, 0.6)] }),
    verdict: 'fail',
  },
  {
    what: 'the other one just weaker',
    options: true,
    measured: face({ count: 2, others: [other(0.3, 0.59)] }),
    verdict: 'unsure',
    says: ['1 other spot looks like a small or faint face'],
    found: 'about 2 faces',
  },
  {
    what: 'the other one as small as it may be to count',
    options: true,
    measured: face({ count: 2, others: [other(0.3 * 0.36, 0.9)] }),
    verdict: 'fail',
  },
  {
    what: 'the other one just smaller: a badge',
    options: true,
    measured: face({ count: 2, others: [other(0.107, 0.9)] }),
    verdict: 'unsure',
  },
  {
    what: 'two badges',
    options: true,
    measured: face({ count: 3, others: [other(0.05, 0.9), other(0.05, 0.9)] }),
    verdict: 'unsure',
    says: ['2 other spots look like a small or faint face'],
  },
  {
    what: 'the largest is the weak one',
    options: true,
    measured: face({ count: 2, score: 0.3, confidence: 0.2, others: [other(0.3, 0.9)] }),
    verdict: 'unsure',
  },
  {
    what: 'two, the largest as weak as it may be to count',
    options: true,
    measured: face({ count: 2, score: 0.6, others: [other(0.3, 0.9)] }),
    verdict: 'fail',
  },
  {
    what: 'none',
    options: true,
    measured: face({ count: 0, score: 0, box: null, confidence: 0, doubts: ['no-face'] }),
    verdict: 'fail',
    says: [
      'No face was found in the picture, so nothing that depends on one was judged; the spec asks for 1 face.',
      "Deliver the sitter's portrait, upright and with the face in view.",
    ],
    found: 'no face',
  },
  {
    what: 'one, hardly',
    options: true,
    measured: face({ score: 0.4, confidence: 0.33, doubts: ['face-uncertain'] }),
    verdict: 'unsure',
    says: ['a face was found, but not with confidence'],
  },
  { what: 'one, just surely enough', options: true, measured: face({ confidence: 0.5 }), verdict: 'pass' },
  { what: 'unreadable file', options: true, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: true, measured: { face: null }, verdict: 'unsure' },
])

testRefused(oneFace, [['a number', 1]])
