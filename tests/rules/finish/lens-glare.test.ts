import { lensGlare } from '../../../src/rules/finish/lens-glare.ts'
import { finish, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const max = { max: 3 }
const sure = { confidence: 0.9, doubts: [] }
const clean = { glarePct: 0, box: null, catchlights: 1 }
const glare = (glarePct: number) => ({
  glarePct,
  box: { x: 0.5, y: 0.3, width: 0.05, height: 0.02 },
  catchlights: 0,
})

const spectacles = (worn: boolean, confidence: number) => ({
  worn,
  frameContrast: worn ? 0.03 : 0.02,
  confidence,
  doubts: confidence < 0.5 ? (['frames-unclear'] as const).slice() : [],
})

testCases(lensGlare, [
  {
    what: 'no spectacles',
    options: max,
    measured: finish({ spectacles: spectacles(false, 0.9), lensGlarePct: 0 }),
    verdict: 'skip',
    says: ['No spectacles'],
  },
  {
    what: 'no glare where it is not clear whether spectacles are worn',
    options: max,
    measured: finish({ spectacles: spectacles(false, 0.4), lensGlarePct: 2 }),
    verdict: 'pass',
  },
  {
    what: 'glare where it is not clear whether spectacles are worn',
    options: max,
    measured: finish({ spectacles: spectacles(true, 0.4), lensGlarePct: 12 }),
    verdict: 'unsure',
    says: ['it is not clear whether spectacles are worn', 'check by eye'],
  },
  { what: 'none', options: max, verdict: 'pass', found: '0 %', asked: 'at most 3 %' },
  { what: 'at the limit', options: max, measured: finish({ lensGlarePct: 3 }), verdict: 'pass' },
  {
    what: 'on one lens',
    options: max,
    measured: finish({ lensGlarePct: 12.34, lensGlare: { left: clean, right: glare(12.34), ...sure } }),
    verdict: 'fail',
    says: [
      'Lens glare covers 12.3 % of an eye (right eye in the frame: 120 x 60 px, 1200 px from the left and 900 px from the top)',
      'Lower the chin or raise the light and shoot again, or take the eye from a frame without glasses in the same head position.',
    ],
  },
  {
    what: 'on both',
    options: max,
    measured: finish({ lensGlarePct: 12, lensGlare: { left: glare(3.5), right: glare(12), ...sure } }),
    verdict: 'fail',
    says: ['left eye in the frame', '; right eye in the frame'],
  },
  {
    what: 'just over the limit is not rounded down to it',
    options: max,
    measured: finish({ lensGlarePct: 3.01 }),
    verdict: 'fail',
    found: '3.01 %',
  },
  {
    what: 'dark lenses',
    options: max,
    measured: finish({
      lensGlare: { left: clean, right: clean, confidence: 0.4, doubts: ['lenses-dark'] },
    }),
    verdict: 'unsure',
    says: ['the lenses are too dark to see the eyes', 'check by eye'],
  },
  {
    what: 'no face',
    options: max,
    measured: finish({
      lensGlarePct: null,
      lensGlare: { left: null, right: null, confidence: 0, doubts: ['no-face'] },
    }),
    verdict: 'unsure',
    says: ['no face was found'],
    found: null,
  },
  { what: 'unreadable file', options: max, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: max, measured: { finish: null }, verdict: 'unsure' },
])

testRefused(lensGlare, [
  ['a negative limit', { max: -1 }],
  ['more than all', { max: 101 }],
  ['no limit', {}],
])
