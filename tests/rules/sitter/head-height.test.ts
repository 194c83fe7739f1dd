import { headHeight } from '../../../src/rules/sitter/head-height.ts'
import { head, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const band = { min: 42, max: 50 }

testCases(headHeight, [
  {
    what: 'inside',
    options: band,
    measured: head({ headHeightPct: 46 }),
    verdict: 'pass',
    says: ['The head height is 46 % of the frame height; the spec asks for 42 to 50 %.'],
  },
  { what: 'at the lower limit', options: band, measured: head({ headHeightPct: 42 }), verdict: 'pass' },
  {
    // A head of 40 % of 3000 px is 1200 px; it is 42 % of 2857.14 px.
    what: 'too small',
    options: band,
    measured: head({ headHeightPct: 40 }),
    verdict: 'fail',
    says: ['40 %', 'too small in the frame', 'at most 2857 px of the 3000 px height'],
  },
  {
    what: 'just under',
    options: band,
    measured: head({ headHeightPct: 41.99 }),
    verdict: 'fail',
    says: ['41.99 %'],
  },
  { what: 'at the upper limit', options: band, measured: head({ headHeightPct: 50 }), verdict: 'pass' },
  {
    // A head of 54 % of 3000 px is 1620 px; it is 50 % of 3240 px.
    what: 'too large',
    options: band,
    measured: head({ headHeightPct: 54 }),
    verdict: 'fail',
    says: ['too large in the frame', 'a height of at least 3240 px'],
  },
  {
    // ICAO Doc 9303 (photograph guidelines): chin to crown 70 to 80 % of the picture's height.
    what: 'a passport crop fails a brand band',
    options: band,
    measured: head({ headHeightPct: 75 }),
    verdict: 'fail',
    says: ['75 %'],
  },
  {
    what: 'a band up to nothing',
    options: { max: 0 },
    measured: head({ headHeightPct: 40 }),
    verdict: 'fail',
    says: ['crop wider from the original.'],
  },
  // Half of an error of 1.1 is 0.55: the deciding share in src/measure/schema/confidence.ts.
  {
    what: 'a lower limit nearer than half of the error',
    options: band,
    measured: head({ headHeightPct: 42.5, headHeightErrorPct: 1.1 }),
    verdict: 'unsure',
    says: ['between 41.4 and 43.6 % of the frame height, as far as can be measured', '42 to 50 %'],
  },
  {
    what: 'the same on the other side of the limit',
    options: band,
    measured: head({ headHeightPct: 41.5, headHeightErrorPct: 1.1 }),
    verdict: 'unsure',
    says: ['between 40.4 and 42.6 %'],
  },
  {
    what: 'an upper limit nearer than half of the error',
    options: band,
    measured: head({ headHeightPct: 50.2, headHeightErrorPct: 0.5 }),
    verdict: 'unsure',
    says: ['between 49.7 and 50.7 %'],
  },
  {
    what: 'a limit within the error, farther than half of it',
    options: band,
    measured: head({ headHeightPct: 42.6, headHeightErrorPct: 1.1 }),
    verdict: 'pass',
    says: ['That is close to a limit: the measurement may be off by 1.1 %.'],
  },
  {
    what: 'a failure farther than half of the error',
    options: band,
    measured: head({ headHeightPct: 41.4, headHeightErrorPct: 1.1 }),
    verdict: 'fail',
    says: ['too small in the frame', 'That is close to a limit: the measurement may be off by 1.1 %.'],
  },
  {
    what: 'well inside',
    options: band,
    measured: head({ headHeightPct: 43.2, headHeightErrorPct: 1.1 }),
    verdict: 'pass',
    says: ['the spec asks for 42 to 50 %.'],
  },
  {
    what: 'too small wherever the chin is',
    options: band,
    measured: head({ headHeightPct: 40, headHeightErrorPct: 1.1 }),
    verdict: 'fail',
    says: ['too small in the frame'],
  },
  {
    what: 'a lost crown',
    options: band,
    measured: head({ headHeightPct: 46, confidence: 0.3, doubts: ['crown-merges-with-backdrop'] }),
    verdict: 'unsure',
    says: ['loose hair, or hair much like the backdrop,'],
  },
  { what: 'no crown', options: band, measured: head({ headHeightPct: null }), verdict: 'unsure' },
  { what: 'unreadable file', options: band, measured: UNREAD, verdict: 'skip' },
  { what: 'head not measured', options: band, measured: { head: null }, verdict: 'unsure' },
])

testRefused(headHeight, [['min above max', { min: 50, max: 42 }, 'swap them']])
