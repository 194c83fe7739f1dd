import { clipping } from '../../../src/rules/finish/clipping.ts'
import { finish, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const both = { highlights: { max: 1 }, shadows: { max: 2 } }
const sure = { highlightPart: null, shadowPart: null, confidence: 0.9, doubts: [] }

testCases(clipping, [
  {
    what: 'none',
    options: both,
    verdict: 'pass',
    found: '0 % clipped highlights, 0 % clipped shadows',
    asked: 'at most 1 % clipped highlights, at most 2 % clipped shadows',
  },
  {
    what: 'at both limits',
    options: both,
    measured: finish({ clippedHighlightPct: 1, clippedShadowPct: 2 }),
    verdict: 'pass',
  },
  {
    what: 'a burned-out forehead',
    options: both,
    measured: finish({ clippedHighlightPct: 4.2, clipping: { ...sure, highlightPart: 'forehead' } }),
    verdict: 'fail',
    says: [
      'Highlights are clipped on 4.2 % of the facial skin, mostly on the forehead; the spec asks for at most 1 % clipped highlights.',
      'Develop the raw file again with less exposure or with the highlights recovered on the forehead',
    ],
  },
  {
    what: 'blocked-up shadows on a cheek',
    options: both,
    measured: finish({ clippedShadowPct: 2.01, clipping: { ...sure, shadowPart: 'left-cheek' } }),
    verdict: 'fail',
    says: ['clipped on 2.01 %', 'the cheek on the left of the frame', 'shadows lifted'],
  },
  {
    what: 'both ends',
    options: both,
    measured: finish({ clippedHighlightPct: 3, clippedShadowPct: 9 }),
    verdict: 'fail',
    says: ['less exposure', 'shadows lifted'],
  },
  {
    what: 'shadows that are not asked about',
    options: { highlights: { max: 1 } },
    measured: finish({ clippedShadowPct: 30 }),
    verdict: 'pass',
  },
  {
    what: 'too little skin',
    options: both,
    measured: finish({
      clippedHighlightPct: null,
      clippedShadowPct: null,
      clipping: { ...sure, confidence: 0, doubts: ['skin-too-small'] },
    }),
    verdict: 'unsure',
    says: ['too few pixels of bare skin show'],
  },
  { what: 'unreadable file', options: both, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: both, measured: { finish: null }, verdict: 'unsure' },
])

testRefused(clipping, [
  ['nothing asked', {}],
  ['a negative limit', { highlights: { max: -1 } }],
  ['a bare number', { shadows: 2 }],
])
