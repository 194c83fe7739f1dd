import { cutoutFringe } from '../../../src/rules/backdrop/cutout-fringe.ts'
import { background, face, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const max = { max: 40 }
const fringe = (outlinePct: number, tone: 'light' | 'dark' = 'light') =>
  background({ fringe: { outlinePct, tone, contrastL: 31.4 } })

testCases(cutoutFringe, [
  { what: 'a rim of cloth', options: max, verdict: 'pass', found: '2 %', asked: 'at most 40 %' },
  {
    what: 'no fringe at all',
    options: max,
    measured: background({ fringe: { outlinePct: 0, tone: null, contrastL: null } }),
    verdict: 'pass',
    says: ["The share of the sitter's outline with a fringe is 0 %"],
  },
  { what: 'at the limit', options: max, measured: fringe(40), verdict: 'pass' },
  {
    what: 'just over it',
    options: max,
    measured: fringe(40.04),
    verdict: 'fail',
    says: [
      "The share of the sitter's outline with a light fringe (by 31 L*) is 40.04 %",
      'pull the mask in by a pixel or two',
    ],
  },
  {
    what: 'a dark line',
    options: max,
    measured: fringe(80, 'dark'),
    verdict: 'fail',
    says: ['with a dark fringe (by 31 L*) is 80 %'],
  },
  {
    what: 'before a backdrop that is not plain',
    options: max,
    measured: background({
      fringe: { outlinePct: 80, tone: 'light', contrastL: 31 },
      confidence: 0.3,
      doubts: ['backdrop-not-plain'],
    }),
    verdict: 'unsure',
    says: ['not plain enough'],
  },
  {
    what: 'a sitter who is too small',
    options: max,
    measured: background({ fringe: null }),
    verdict: 'unsure',
    says: ['too little of the outline shows'],
  },
  {
    what: 'no face',
    options: max,
    measured: { ...background({ fringe: null }), ...face({ count: 0, box: null }) },
    verdict: 'unsure',
    says: ['no face was found'],
  },
  { what: 'not measured', options: max, measured: { background: null }, verdict: 'unsure' },
  { what: 'unreadable file', options: max, measured: UNREAD, verdict: 'skip' },
])

testRefused(cutoutFringe, [
  ['no limit', {}],
  ['a limit of nothing', { max: 0 }],
  ['a limit of everything', { max: 100 }],
  ['a least fringe', { min: 5, max: 40 }],
])
