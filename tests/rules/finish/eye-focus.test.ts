import { measureFinish } from '../../../src/measure/finish/finish.ts'
import type { Face, Focus, Measurements } from '../../../src/measure/schema/measurements.ts'
import { eyeFocus } from '../../../src/rules/finish/eye-focus.ts'
import { GOOD, testCases, testRefused } from '../judging/cases.ts'

const FACE = GOOD.face as Face
const BLANK = measureFinish({ data: Buffer.alloc(3), width: 1, height: 1 }, null, FACE, ['focus'])

function focus(change: Partial<Focus>): Partial<Measurements> {
  const sharp: Focus = {
    eyePx: 0.8,
    leftPx: 0.8,
    rightPx: 0.9,
    finestEdgePx: 0.6,
    sharperPlace: null,
    haloPct: 14,
    haloOfGrainPct: 0,
    confidence: 0.9,
    doubts: [],
  }
  return { finish: { ...BLANK, focus: { ...sharp, ...change } } }
}
const max = { max: 1.5 }

testCases(eyeFocus, [
  {
    what: 'sharp eyes',
    options: max,
    measured: focus({}),
    verdict: 'pass',
    found: '0.8 px',
    asked: 'at most 1.5 px',
  },
  { what: 'at the limit', options: max, measured: focus({ eyePx: 1.5, finestEdgePx: 0.7 }), verdict: 'pass' },
  {
    what: 'just over it',
    options: max,
    measured: focus({ eyePx: 1.52, finestEdgePx: 1.8 }),
    verdict: 'fail',
    says: ['1.52 px', 'sharpening does not restore detail'],
  },
  {
    what: 'the nose in focus instead',
    options: max,
    measured: focus({ eyePx: 3, finestEdgePx: 3.5, sharperPlace: 'nose' }),
    verdict: 'fail',
    says: ['The focus is on the nose'],
  },
  {
    what: 'over it, but as sharp as the pixels of a small file can show',
    options: max,
    measured: focus({ eyePx: 2.4, finestEdgePx: 0.7 }),
    verdict: 'unsure',
    says: ['as sharp as this file can show'],
  },
  {
    what: 'over it, with pixels to spare',
    options: max,
    measured: focus({ eyePx: 2.4, finestEdgePx: 0.71 }),
    verdict: 'fail',
  },
  {
    what: 'edges as wide as a large file has them',
    options: max,
    measured: focus({ finestEdgePx: 1.6 }),
    verdict: 'pass',
  },
  {
    what: 'within both limits',
    options: { min: 0.5, max: 1.5 },
    measured: focus({ eyePx: 0.5 }),
    verdict: 'pass',
    found: '0.5 px',
    asked: '0.5 to 1.5 px',
  },
  {
    what: 'edges sharper than asked',
    options: { min: 0.5, max: 1.5 },
    measured: focus({ eyePx: 0.46, finestEdgePx: 0.4 }),
    verdict: 'fail',
    says: ['0.46 px', 'Export it again from the master with less sharpening'],
  },
  {
    what: 'low confidence is never a fail',
    options: max,
    measured: focus({ eyePx: 4, confidence: 0.3, doubts: ['face-uncertain'] }),
    verdict: 'unsure',
  },
  {
    what: 'closed eyes or dark lenses',
    options: max,
    measured: focus({ eyePx: null, finestEdgePx: null, confidence: 0, doubts: ['eyes-without-edges'] }),
    verdict: 'unsure',
    says: ['too little detail'],
  },
  { what: 'not measured', options: max, measured: { finish: null }, verdict: 'unsure' },
  {
    what: 'unreadable file',
    options: max,
    measured: { finish: null, fault: { kind: 'corrupt', detail: '' } },
    verdict: 'skip',
  },
])

testRefused(eyeFocus, [
  ['no limit', {}],
  ['a limit of nothing', { max: 0 }],
  ['what it once took for enlarged files', { max: 1, enlarged: 'allow' }],
  ['limits that nothing meets', { min: 2, max: 1 }, 'swap them'],
])
