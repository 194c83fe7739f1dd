import type { Focus } from '../../../src/measure/schema/measurements.ts'
import { sharpeningHalo } from '../../../src/rules/finish/sharpening-halo.ts'
import { finish, GOOD, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const focus = (change: Partial<Focus>) => finish({ focus: { ...(GOOD.finish?.focus as Focus), ...change } })
const max = { max: 25 }

testCases(sharpeningHalo, [
  { what: 'lashes alone', options: max, verdict: 'pass', found: '14 %', asked: 'at most 25 %' },
  { what: 'at the limit', options: max, measured: focus({ haloPct: 25 }), verdict: 'pass' },
  {
    what: 'just over it',
    options: max,
    measured: focus({ haloPct: 25.04 }),
    verdict: 'fail',
    says: [
      'The height of the halos at the eyes is 25.04 % of that of the edges',
      'Export it again from the master with less sharpening',
    ],
  },
  {
    what: 'over it, which grain may be',
    options: max,
    measured: focus({ haloPct: 28, haloOfGrainPct: 4 }),
    verdict: 'unsure',
    says: ['the picture is grainy, and grain beside edges looks like halos'],
  },
  {
    what: 'over it by more than grain adds',
    options: max,
    measured: focus({ haloPct: 28, haloOfGrainPct: 2 }),
    verdict: 'fail',
  },
  {
    what: 'grainy, but within it',
    options: max,
    measured: focus({ haloPct: 24, haloOfGrainPct: 8 }),
    verdict: 'pass',
  },
  {
    what: 'eyes too small to tell halos from lashes',
    options: max,
    measured: focus({ haloPct: null }),
    verdict: 'unsure',
    says: ['too small in the file to tell halos from lashes'],
  },
  {
    what: 'eyes behind reflections',
    options: max,
    measured: focus({ eyePx: null, haloPct: null, confidence: 0, doubts: ['eyes-behind-reflections'] }),
    verdict: 'unsure',
    says: ['reflections cover the eyes'],
  },
  {
    what: 'a face that is hardly one',
    options: max,
    measured: focus({ haloPct: 60, confidence: 0.3, doubts: ['face-uncertain'] }),
    verdict: 'unsure',
    says: ['not with confidence'],
  },
  { what: 'not measured', options: max, measured: { finish: null }, verdict: 'unsure' },
  { what: 'unreadable file', options: max, measured: UNREAD, verdict: 'skip' },
])

testRefused(sharpeningHalo, [
  ['no limit', {}],
  ['a limit of nothing', { max: 0 }],
  ['a least halo', { min: 5, max: 25 }],
])
