import type { Color } from '../../../src/measure/schema/measurements.ts'
import { colorSpace } from '../../../src/rules/file/color-space.ts'
import { COLORLESS } from '../../../src/rules/judging/unseen.ts'
import { testCases, testRefused, UNREAD } from '../judging/cases.ts'

const color = (profile: Color['profile'], profileName: string | null, space: Color['space'] = 'rgb') => ({
  color: { space, profile, profileName },
})

testCases(colorSpace, [
  {
    what: 'sRGB',
    options: 'sRGB',
    verdict: 'pass',
    says: ['The color space is sRGB; the spec asks for sRGB.'],
    found: 'sRGB',
    asked: 'sRGB',
  },
  // Names that true sRGB profiles carry: colord-data's Gamma6500K.icc is named "D65", a small web profile "c2".
  { what: 'sRGB by content under any name', options: 'sRGB', measured: color('sRGB', 'c2'), verdict: 'pass' },
  { what: 'sRGB by content without a name', options: 'sRGB', measured: color('sRGB', null), verdict: 'pass' },
  {
    what: 'Adobe RGB where sRGB is asked',
    options: 'sRGB',
    measured: color('Adobe RGB (1998)', 'Adobe RGB (1998)'),
    verdict: 'fail',
    says: [
      'The color space is Adobe RGB (1998); the spec asks for sRGB.',
      'Convert the picture to sRGB and embed that profile',
    ],
  },
  {
    what: 'a profile whose name lies',
    options: 'sRGB',
    measured: color('Adobe RGB (1998)', 'sRGB IEC61966-2.1'),
    verdict: 'fail',
    says: ['is named "sRGB IEC61966-2.1", but its content is Adobe RGB (1998).'],
  },
  {
    what: 'a lying name on the right content passes and is told',
    options: 'sRGB',
    measured: color('sRGB', 'Display P3'),
    verdict: 'pass',
    says: ['is named "Display P3", but its content is sRGB.'],
  },
  {
    what: 'a foreign content called sRGB',
    options: 'sRGB',
    measured: color('other', 'sRGB, linear'),
    verdict: 'fail',
    says: ['another RGB space (profile "sRGB, linear")', 'its content is something else'],
  },
  {
    // Three names of one space: ClayRGB1998, a98 and compatibleWithAdobeRGB1998 profiles.
    what: 'a compatible name is no lie',
    options: 'Adobe RGB (1998)',
    measured: color('Adobe RGB (1998)', 'compatibleWithAdobeRGB1998'),
    verdict: 'pass',
    says: ['asks for Adobe RGB (1998).'],
  },
  { what: 'Display P3', options: 'Display P3', measured: color('Display P3', 'Display P3'), verdict: 'pass' },
  { what: 'ProPhoto', options: 'ProPhoto RGB', measured: color('ProPhoto RGB', 'ROMM RGB'), verdict: 'pass' },
  {
    what: 'a nameless unknown profile',
    options: 'sRGB',
    measured: color('other', null),
    verdict: 'fail',
    says: ['an unknown RGB profile'],
  },
  {
    what: 'untagged is refused by default',
    options: 'sRGB',
    measured: color('none', null),
    verdict: 'fail',
    says: [
      'has no color profile; the spec asks for sRGB with its profile embedded',
      'Export again with the sRGB',
    ],
    found: 'RGB without a profile',
  },
  {
    what: 'untagged refused in so many words',
    options: { profile: 'sRGB', untagged: 'refuse' },
    measured: color('none', null),
    verdict: 'fail',
  },
  {
    what: 'untagged allowed',
    options: { profile: 'sRGB', untagged: 'allow' },
    measured: color('none', null),
    verdict: 'pass',
    says: ['which the spec allows; it is read as sRGB'],
  },
  {
    what: 'untagged allowed, but never taken for Adobe RGB',
    options: { profile: 'Adobe RGB (1998)', untagged: 'allow' },
    measured: color('none', null),
    verdict: 'fail',
    says: ['so it is read as sRGB; the spec asks for Adobe RGB (1998)'],
  },
  {
    what: 'CMYK',
    options: 'sRGB',
    measured: color('other', 'Coated paper', 'cmyk'),
    verdict: 'fail',
    says: ['The picture is CMYK (profile "Coated paper")', 'Ask for the RGB original'],
  },
  {
    what: 'CMYK without a profile, where untagged is allowed',
    options: { profile: 'sRGB', untagged: 'allow' },
    measured: color('none', null, 'cmyk'),
    verdict: 'fail',
    says: ['The picture is CMYK;'],
  },
  {
    what: 'grayscale where color is asked',
    options: 'sRGB',
    measured: color('other', 'Dot Gain 20%', 'gray'),
    verdict: 'fail',
    says: ['grayscale (profile "Dot Gain 20%")'],
  },
  {
    what: 'grayscale as asked',
    options: 'gray',
    measured: color('other', 'Gamma 2.2', 'gray'),
    verdict: 'pass',
  },
  {
    what: 'color where grayscale is asked',
    options: 'gray',
    verdict: 'fail',
    says: ['The picture is sRGB; the spec asks for gray.', 'grayscale original'],
  },
  { what: 'untagged grayscale', options: 'gray', measured: color('none', null, 'gray'), verdict: 'fail' },
  {
    what: 'untagged grayscale, allowed',
    options: { profile: 'gray', untagged: 'allow' },
    measured: color('none', null, 'gray'),
    verdict: 'pass',
  },
  {
    what: 'a picture without color',
    options: 'sRGB',
    measured: { peakChromaC: 0 },
    verdict: 'fail',
    says: [
      'The picture has no color; the spec asks for sRGB, in color.',
      'Deliver the color version in sRGB.',
      'set allow-monochrome: true under color-space',
    ],
    found: 'sRGB, black and white',
    asked: 'sRGB, in color',
  },
  {
    what: 'a picture without color, refused in so many words',
    options: { profile: 'sRGB', 'allow-monochrome': false },
    measured: { peakChromaC: 0 },
    verdict: 'fail',
  },
  {
    what: 'a picture without color, allowed',
    options: { profile: 'sRGB', 'allow-monochrome': true },
    measured: { peakChromaC: 0 },
    verdict: 'pass',
    says: ['The color space is sRGB; the spec asks for sRGB.'],
  },
  {
    what: 'just less color than any picture in color has',
    options: 'sRGB',
    measured: { peakChromaC: COLORLESS - 0.1 },
    verdict: 'fail',
  },
  {
    what: 'just as much color as tells one in color',
    options: 'sRGB',
    measured: { peakChromaC: COLORLESS },
    verdict: 'pass',
  },
  {
    what: 'no color and the wrong space: one fix',
    options: 'sRGB',
    measured: { ...color('Adobe RGB (1998)', 'Adobe RGB (1998)'), peakChromaC: 0.5 },
    verdict: 'fail',
    says: ['The picture has no color', 'Deliver the color version in sRGB.'],
  },
  {
    what: 'no color is allowed, the wrong space is not',
    options: { profile: 'sRGB', 'allow-monochrome': true },
    measured: { ...color('Adobe RGB (1998)', 'Adobe RGB (1998)'), peakChromaC: 0.5 },
    verdict: 'fail',
    says: ['The color space is Adobe RGB (1998)', 'Convert the picture to sRGB'],
  },
  {
    what: 'grayscale where no color is allowed: converting loses nothing',
    options: { profile: 'sRGB', 'allow-monochrome': true },
    measured: { ...color('other', 'Gamma 2.2', 'gray'), peakChromaC: 0 },
    verdict: 'fail',
    says: ['The picture is grayscale', 'Convert the picture to sRGB and embed that profile.'],
  },
  {
    what: 'a picture without color where grayscale is asked',
    options: 'gray',
    measured: { ...color('other', 'Gamma 2.2', 'gray'), peakChromaC: 0 },
    verdict: 'pass',
  },
  {
    what: 'a picture that was not decoded',
    options: 'sRGB',
    measured: { peakChromaC: null },
    verdict: 'unsure',
  },
  { what: 'unreadable file', options: 'sRGB', measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: 'sRGB', measured: { color: null }, verdict: 'unsure' },
])

testRefused(colorSpace, [
  ['an unknown name', 'AdobeRGB'],
  ['other', 'other'],
  ['a word for allow-monochrome', { profile: 'sRGB', 'allow-monochrome': 'yes' }],
  ['an unknown word for untagged', { profile: 'sRGB', untagged: 'maybe' }],
])
