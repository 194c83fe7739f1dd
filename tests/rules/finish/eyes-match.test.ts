import type { EyePair } from '../../../src/measure/schema/measurements.ts'
import { eyesMatch } from '../../../src/rules/finish/eyes-match.ts'
import { finish, GOOD, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const bare = { worn: false, frameContrast: 0.012, confidence: 0.9, doubts: [] }
/** Both eyes with changes, of a sitter without spectacles. */
const eyes = (changes: Partial<EyePair>, spectacles = bare) =>
  finish({ spectacles, eyePair: { ...(GOOD.finish?.eyePair as EyePair), ...changes } })
const light = (across: number, down: number, irisPx = 52) => ({ irisPx, catchlight: { across, down } })

// Common practice, no source: both eyes see the same lights.
testCases(eyesMatch, [
  {
    what: 'both eyes of one frame',
    options: true,
    measured: eyes({}),
    verdict: 'pass',
    says: ['The catchlights stand at the same place', 'The irises are as wide as each other'],
  },
  {
    what: 'lights as far apart as they may be',
    options: true,
    measured: eyes({ catchlightsApart: 0.4, irisDifferencePct: 6 }),
    verdict: 'pass',
  },
  {
    what: 'lights on different sides',
    options: true,
    measured: eyes({ left: light(-0.4, -0.4), right: light(0.4, -0.4), catchlightsApart: 1 }),
    verdict: 'fail',
    says: [
      "The catchlight is at 11 o'clock in the left eye in the frame and at 2 o'clock in the right, 1 radii of the iris apart",
      'Take both eyes from one frame, or move the catchlight of the pasted one.',
    ],
    found: "catchlights at 11 o'clock and 2 o'clock",
  },
  {
    what: 'a light just too far off is not told as one that is not',
    options: true,
    measured: eyes({ catchlightsApart: 0.404 }),
    verdict: 'fail',
    says: ['0.404 radii'],
  },
  {
    what: 'one iris larger',
    options: true,
    measured: eyes({ left: light(-0.4, -0.4, 58), irisDifferencePct: 11.5 }),
    verdict: 'fail',
    says: [
      'The iris of the left eye in the frame is 11.5 % wider than the other; in one frame they differ by at most 6 %.',
      'scale the pasted one',
    ],
    found: 'left iris 11.5 % wider',
    asked: 'eyes of one frame',
  },
  {
    what: 'one iris smaller, and its light on the other side',
    options: true,
    measured: eyes({ left: light(0.5, 0, 46), irisDifferencePct: 13, catchlightsApart: 1.1 }),
    verdict: 'fail',
    says: ['The catchlight is at 3 o', 'The iris of the right eye'],
  },
  {
    what: 'an eye that no light reaches',
    options: true,
    measured: eyes({ left: { irisPx: 52, catchlight: null }, catchlightsApart: null }),
    verdict: 'pass',
    says: ['At least one eye reflects no light.'],
  },
  {
    what: 'behind spectacles',
    options: true,
    measured: eyes({ catchlightsApart: 1 }, { ...bare, worn: true }),
    verdict: 'skip',
    says: ['Spectacles: lenses change the size of an eye'],
  },
  { what: 'alike behind spectacles', options: true, measured: {}, verdict: 'pass' },
  {
    what: 'perhaps behind spectacles',
    options: true,
    measured: eyes({ catchlightsApart: 1 }, { ...bare, worn: true, confidence: 0.3 }),
    verdict: 'unsure',
    says: ['it is not clear whether spectacles are worn'],
  },
  {
    what: 'alike, whether or not behind spectacles',
    options: true,
    measured: eyes({}, { ...bare, confidence: 0.3 }),
    verdict: 'pass',
  },
  {
    what: 'nearly closed',
    options: true,
    measured: eyes({ confidence: 0.4, doubts: ['irises-unclear'], catchlightsApart: 1 }),
    verdict: 'unsure',
    says: ['the edge of an iris does not show clearly'],
  },
  { what: 'nothing read', options: true, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: true, measured: { finish: null }, verdict: 'unsure' },
])

testRefused(eyesMatch, [
  ['false', false],
  ['an option', { max: 3 }],
])
