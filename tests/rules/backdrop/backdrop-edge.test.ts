import type { Intrusion, Straightening } from '../../../src/measure/schema/measurements.ts'
import { backdropEdge } from '../../../src/rules/backdrop/backdrop-edge.ts'
import { background, testCases, testRefused, UNREAD } from '../judging/cases.ts'

/** A stand at the left edge of the 2400 x 3000 px frame: 96 px wide, 2400 px tall. */
const stand: Intrusion = { side: 'left', box: { x: 0, y: 0.2, width: 0.04, height: 0.8 }, areaPct: 3.2 }
const clamp: Intrusion = { side: 'top', box: { x: 0.5, y: 0, width: 0.05, height: 0.03 }, areaPct: 0.15 }
const lower: Intrusion = { side: 'bottom', box: { x: 0, y: 0.9, width: 0.1, height: 0.1 }, areaPct: 1 }
const right: Intrusion = { side: 'right', box: { x: 0.9, y: 0, width: 0.1, height: 0.1 }, areaPct: 0.5 }
const band = { x: 0, y: 0, width: 1, height: 0.02 }
const wedges: Straightening = {
  fill: 'flat',
  color: [255, 255, 255],
  angleDeg: 1.5,
  areaPct: 1.6,
  regions: [
    { side: 'top', box: band },
    { side: 'right', box: { x: 0.98, y: 0, width: 0.02, height: 1 } },
  ],
}
const half = { 'smallest-pct': 0.5 }

testCases(backdropEdge, [
  {
    what: 'clean edges',
    options: true,
    verdict: 'pass',
    says: ['Nothing but backdrop and sitter is at the edges of the frame; the spec asks for nothing there.'],
    found: 'nothing',
    asked: 'nothing',
  },
  {
    what: 'a stand',
    options: true,
    measured: background({ intrusions: [stand] }),
    verdict: 'fail',
    says: [
      'a region of 96 x 2400 px at the left edge, 0 px from the left and 600 px from the top (3.2 % of the frame)',
      'Crop off 96 px from the left, or retouch the backdrop over it.',
    ],
    found: '1 region, left',
  },
  {
    what: 'one on each side',
    options: true,
    measured: background({ intrusions: [stand, lower, right, clamp] }),
    verdict: 'fail',
    says: ['96 px from the left, 300 px from the bottom, 240 px from the right and 90 px from the top'],
    found: '4 regions, left, bottom, right and top',
  },
  {
    what: 'smaller than what matters',
    options: half,
    measured: background({ intrusions: [clamp] }),
    verdict: 'pass',
    asked: 'nothing of 0.5 % or more',
  },
  {
    what: 'just as large as what matters',
    options: half,
    measured: background({ intrusions: [right] }),
    verdict: 'fail',
    says: ['0.5 % of the frame', 'nothing of 0.5 % or more'],
  },
  {
    what: 'a backdrop that is not plain is never a pass',
    options: true,
    measured: background({ confidence: 0.3, doubts: ['backdrop-not-plain'] }),
    verdict: 'unsure',
    says: ['not plain enough', 'The spec asks for nothing there'],
  },
  {
    what: 'nor a fail',
    options: true,
    measured: background({ intrusions: [stand], confidence: 0.3, doubts: ['backdrop-not-plain'] }),
    verdict: 'unsure',
  },
  {
    what: 'no face to tell the sitter by',
    options: true,
    measured: { ...background({ intrusions: null }), face: null },
    verdict: 'unsure',
    says: ['no face was found'],
  },
  {
    what: 'a head that passes for backdrop',
    options: true,
    measured: background({ intrusions: null }),
    verdict: 'unsure',
    says: ['not plain enough'],
  },
  {
    what: 'wedges that straightening left',
    options: true,
    measured: background({ straightening: wedges }),
    verdict: 'fail',
    says: [
      'The picture was rotated by 1.5° and not cropped: wedges along the top and the right, up to 60 px deep (1.6 % of the frame), are empty and filled with one color (sRGB 255, 255, 255); the spec asks for nothing there.',
      'Crop off 60 px from the top and 48 px from the right.',
    ],
    found: 'empty wedges, top and right',
  },
  {
    what: 'smeared wedges before a backdrop that is not plain, since they are seen all the same',
    options: true,
    measured: background({
      straightening: { ...wedges, fill: 'smeared', color: null },
      confidence: 0.3,
      doubts: ['backdrop-not-plain'],
    }),
    verdict: 'fail',
    says: ['smeared from the outermost pixels'],
    found: 'smeared wedges, top and right',
  },
  {
    what: 'a strip along one side',
    options: true,
    measured: background({
      straightening: { ...wedges, angleDeg: 0, regions: [{ side: 'top', box: band }] },
    }),
    verdict: 'fail',
    says: ['The canvas is larger than the picture: strips along the top'],
  },
  {
    what: 'wedges smaller than what matters, all together',
    options: { 'smallest-pct': 2 },
    measured: background({ straightening: wedges }),
    verdict: 'pass',
  },
  { what: 'unreadable file', options: true, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: true, measured: { background: null }, verdict: 'unsure' },
])

testRefused(backdropEdge, [
  ['smaller than what is measured', { 'smallest-pct': 0.05 }],
  ['more than half the frame', { 'smallest-pct': 60 }],
  ['no limit', {}],
  ['an unknown key', { 'smallest-pct': 1, side: 'left' }],
])
