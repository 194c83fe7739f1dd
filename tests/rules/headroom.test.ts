import { headroom } from '../../src/rules/headroom.ts'
import { GOOD, testCases } from './cases.ts'

const head = (headroomPct: number | null, confidence = 0.9) => ({
  head: { ...(GOOD.head as NonNullable<typeof GOOD.head>), headroomPct, confidence },
})
const band = { min: 6, max: 12 }

testCases(headroom, [
  {
    what: 'inside',
    options: band,
    measured: head(9),
    verdict: 'pass',
    says: ['Headroom is 9 % of the frame height'],
  },
  { what: 'at the lower limit', options: band, measured: head(6), verdict: 'pass' },
  {
    what: 'just under it',
    options: band,
    measured: head(5.97),
    verdict: 'fail',
    says: ['5.97 %', 'up by 1 px'],
  },
  { what: 'at the upper limit', options: band, measured: head(12), verdict: 'pass' },
  {
    what: 'just over it',
    options: band,
    measured: head(12.1),
    verdict: 'fail',
    says: ['move the top edge down by 3 px'],
  },
  {
    what: 'worked sentence of the design',
    options: band,
    measured: head(4.1),
    verdict: 'fail',
    says: [
      'Headroom is 4.1 % of the frame height; the spec asks for 6 to 12 % of the frame height.',
      'Leave more space above the hair: move the top edge up by 57 px.',
    ],
  },
  {
    what: 'target and tolerance',
    options: { target: 9, tolerance: 1 },
    measured: head(10.2),
    verdict: 'fail',
    says: ['8 to 10 %'],
  },
  {
    what: 'low confidence is never a pass',
    options: band,
    measured: head(9, 0.49),
    verdict: 'unsure',
    says: ['could not be measured with confidence'],
  },
  { what: 'low confidence is never a fail', options: band, measured: head(2, 0.2), verdict: 'unsure' },
  { what: 'not measurable', options: band, measured: head(null, 0), verdict: 'unsure' },
  {
    what: 'unreadable file',
    options: band,
    measured: { head: null, fault: { kind: 'truncated', detail: '' } },
    verdict: 'skip',
  },
  { what: 'measurement missing', options: band, measured: { head: null }, verdict: 'unsure' },
])
