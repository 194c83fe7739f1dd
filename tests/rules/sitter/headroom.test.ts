import { headroom } from '../../../src/rules/sitter/headroom.ts'
import { head, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const band = { min: 6, max: 12 }

testCases(headroom, [
  {
    what: 'inside',
    options: band,
    measured: head({ headroomPct: 9 }),
    verdict: 'pass',
    says: ['Headroom is 9 % of the frame height; the spec asks for 6 to 12 %.'],
    found: '9 %',
    asked: '6 to 12 %',
  },
  { what: 'at the lower limit', options: band, measured: head({ headroomPct: 6 }), verdict: 'pass' },
  {
    what: 'just under it',
    options: band,
    measured: head({ headroomPct: 5.97 }),
    verdict: 'fail',
    says: ['5.97 %', 'up by 1 px'],
  },
  { what: 'at the upper limit', options: band, measured: head({ headroomPct: 12 }), verdict: 'pass' },
  {
    what: 'just over it',
    options: band,
    measured: head({ headroomPct: 12.1 }),
    verdict: 'fail',
    says: ['move the crop down by 3 px'],
  },
  {
    // (6 - 4.1) % of 3000 px is 57 px.
    what: 'the whole sentence',
    options: band,
    measured: head({ headroomPct: 4.1 }),
    verdict: 'fail',
    says: [
      'Headroom is 4.1 % of the frame height; the spec asks for 6 to 12 %.',
      'Leave more space above the hair: move the crop up by 57 px.',
    ],
  },
  {
    what: 'target and tolerance',
    options: { target: 9, tolerance: 1 },
    measured: head({ headroomPct: 10.2 }),
    verdict: 'fail',
    says: ['8 to 10 %'],
  },
  {
    what: 'low confidence is never a pass',
    options: band,
    measured: head({ headroomPct: 9, confidence: 0.49, doubts: ['crown-implausible'] }),
    verdict: 'unsure',
    says: ['could not be measured with confidence', 'the crown found does not fit', '6 to 12 %'],
    found: 'about 9 %',
  },
  {
    what: 'just enough confidence decides',
    options: band,
    measured: head({ headroomPct: 9, confidence: 0.5 }),
    verdict: 'pass',
  },
  {
    what: 'low confidence is never a fail',
    options: band,
    measured: head({ headroomPct: 2, confidence: 0.2 }),
    verdict: 'unsure',
  },
  {
    what: 'not measurable',
    options: band,
    measured: head({ headroomPct: null, confidence: 0, doubts: ['no-face'] }),
    verdict: 'unsure',
    says: ['no face was found'],
    found: null,
  },
  {
    what: 'a head that the frame cuts',
    options: band,
    measured: head({ headroomPct: 0, confidence: 0.4, doubts: ['crown-out-of-frame'] }),
    verdict: 'fail',
    says: [
      'The top edge of the frame cuts the head or touches it, so there is no headroom; the spec asks for 6 to 12 %.',
      'Go back to the uncropped frame and crop it anew, with the whole head and 6 to 12 % of the frame height above it;',
    ],
    found: 'none: the head is cut',
    asked: '6 to 12 %',
  },
  {
    what: 'a cut head where cut heads are asked for: by how much is unknown',
    options: { min: -20, max: 0 },
    measured: head({ headroomPct: 0, confidence: 0.4, doubts: ['crown-out-of-frame'] }),
    verdict: 'unsure',
  },
  {
    what: 'a cut head where no least headroom is asked for',
    options: { max: 12 },
    measured: head({ headroomPct: 0, confidence: 0.4, doubts: ['crown-out-of-frame'] }),
    verdict: 'unsure',
  },
  {
    what: 'a head at the edge by less than is measured, where next to nothing is asked for',
    options: { min: 0.1 },
    measured: head({ headroomPct: 0.2, confidence: 0.4, doubts: ['crown-out-of-frame'] }),
    verdict: 'unsure',
  },
  {
    what: 'something above the head that reaches the edge of the frame',
    options: band,
    measured: head({
      headroomPct: 0,
      confidence: 0.4,
      doubts: ['crown-out-of-frame', 'crown-implausible'],
    }),
    verdict: 'unsure',
  },
  {
    what: 'a head at the edge of the frame before a busy wall',
    options: band,
    measured: head({
      headroomPct: 0,
      confidence: 0.3,
      doubts: ['backdrop-not-plain', 'crown-out-of-frame'],
    }),
    verdict: 'unsure',
  },
  { what: 'not a number', options: band, measured: head({ headroomPct: Number.NaN }), verdict: 'unsure' },
  { what: 'unreadable file', options: band, measured: UNREAD, verdict: 'skip' },
  { what: 'measurement missing', options: band, measured: { head: null }, verdict: 'unsure' },
])

testRefused(headroom, [
  ['min above max', { min: 12, max: 6 }, 'min is 12 and max is 6'],
  ['an empty range', {}],
  ['text', '6 to 12'],
  ['a negative tolerance', { target: 9, tolerance: -1 }],
  ['an unknown key', { min: 6, maks: 12 }],
])
