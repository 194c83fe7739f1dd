import type { SkinTint } from '../../../src/measure/schema/measurements.ts'
import { skinCast } from '../../../src/rules/finish/skin-cast.ts'
import { background, finish, testCases, testRefused, UNREAD } from '../judging/cases.ts'

/** Skin of a color; hue by its definition (CIE 15:2004). */
const skin = (L: number, a: number, b: number, changes: Partial<SkinTint> = {}) =>
  finish({
    skinTint: {
      lab: { L, a, b },
      hueDeg: ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360,
      hueErrorDeg: 4,
      ...{ confidence: 0.9, doubts: [] },
      ...changes,
    },
  })
const tinted = background({ chromaC: 9, hueDeg: 270, lab: { L: 90, a: 0, b: -9 } })

// L*a*b* of skin: means of five clusters of 120 people's facial skin (a shade guide, IADR 2009, abstract 120461).
const PUBLISHED = [
  [52.5, 17, 18.9],
  [37.7, 17.2, 14.7],
  [49.4, 22, 12.3],
  [41.5, 25.5, 13.3],
  [26.7, 14.6, 14.7],
] as const

testCases(skinCast, [
  ...PUBLISHED.map(([L, a, b]) => ({
    what: `published skin of L* ${L}`,
    options: true,
    measured: skin(L, a, b),
    verdict: 'pass' as const,
    says: ['which skin of every tone has in white light'],
  })),
  {
    what: 'blue skin before a gray backdrop',
    options: true,
    measured: skin(60, 12, -2),
    verdict: 'fail',
    says: [
      'Skin has a hue of 350.5°, a cast toward blue (cool)',
      'Balance skin toward yellow (warm); the backdrop is neutral already',
    ],
    found: 'hue 350.5°',
    asked: 'a hue of 15 to 85°',
  },
  {
    what: 'green skin',
    options: true,
    measured: skin(60, -4, 14),
    verdict: 'fail',
    says: ['a cast toward blue-green (cool)', 'Balance skin toward pink'],
  },
  {
    what: 'green skin in a dark tone',
    options: true,
    measured: skin(28, -4, 9),
    verdict: 'fail',
    says: ['a cast toward blue-green (cool)'],
  },
  {
    what: 'blue skin and a blue backdrop',
    options: true,
    measured: { ...skin(60, 12, -2), ...tinted },
    verdict: 'unsure',
    says: ['The backdrop has a tint, too (9 C* toward blue (cool))'],
  },
  {
    what: 'good skin and a blue backdrop',
    options: true,
    measured: { ...skin(60, 13, 14), ...tinted },
    verdict: 'pass',
  },
  {
    what: 'blue skin before a wall that is not plain',
    options: true,
    measured: { ...skin(60, 12, -2), ...background({ confidence: 0.3, doubts: ['backdrop-not-plain'] }) },
    verdict: 'unsure',
    says: ["The backdrop doesn't tell the color of the light: the backdrop is not plain enough"],
  },
  {
    what: 'near the end',
    options: true,
    measured: skin(60, 14, 4),
    verdict: 'unsure',
    says: ['as far as can be measured'],
  },
  {
    what: 'parts of the face that disagree, as in colored light',
    options: true,
    measured: skin(68, 12, -2, { hueErrorDeg: 54 }),
    verdict: 'unsure',
  },
  {
    what: 'a face too small',
    options: true,
    measured: skin(60, 12, -2, { confidence: 0.4, doubts: ['face-too-small'] }),
    verdict: 'unsure',
    says: ['the face is too small'],
  },
  {
    what: 'no skin',
    options: true,
    measured: skin(0, 0, 0, {
      ...{ lab: null, hueDeg: null, hueErrorDeg: null, confidence: 0, doubts: ['skin-too-small'] },
    }),
    verdict: 'unsure',
    says: ['too few pixels of bare skin show'],
  },
  {
    what: 'black and white',
    options: true,
    measured: { ...skin(60, 0, 0), peakChromaC: 0 },
    verdict: 'skip',
    says: ['black and white'],
  },
  { what: 'nothing read', options: true, measured: UNREAD, verdict: 'skip' },
])

testRefused(skinCast, [['false', false]])
