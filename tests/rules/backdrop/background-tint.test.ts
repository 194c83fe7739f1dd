import { rgbToLab } from '../../../src/color/lab.ts'
import { backgroundTint } from '../../../src/rules/backdrop/background-tint.ts'
import { background, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const neutral = { 'max-chroma': 3 }
const tinted = (chromaC: number, hueDeg: number) => background({ chromaC, hueDeg })
const colored = (L: number, a: number, b: number) => background({ lab: { L, a, b } })
// IEC 61966-2-1 and CIE 15: sRGB code 230 three times is L* 91.293, a* 0, b* 0.
const gray230 = { color: '#e6e6e6', tolerance: 2 }

testCases(backgroundTint, [
  {
    what: 'neutral',
    options: neutral,
    measured: tinted(0.4, 90),
    verdict: 'pass',
    says: ['The tint of the backdrop is 0.4 C*; the spec asks for at most 3 C*.'],
  },
  { what: 'at the limit', options: neutral, measured: tinted(3, 90), verdict: 'pass' },
  {
    what: 'just over it, to the warm side',
    options: neutral,
    measured: tinted(3.04, 95),
    verdict: 'fail',
    says: ['3.04 C* toward yellow (warm)', 'correct the backdrop toward blue (cool)'],
  },
  {
    what: 'to the cool side',
    options: neutral,
    measured: tinted(6.2, 200),
    verdict: 'fail',
    says: ['6.2 C* toward blue-green (cool)', 'toward red (warm)'],
  },
  {
    what: 'the named color',
    options: gray230,
    measured: colored(91.293, 0, 0),
    verdict: 'pass',
    says: ['from #e6e6e6; the spec asks for at most 2 ΔE00 from #e6e6e6'],
  },
  {
    // ISO 11664-6: for grays ΔE00 is ΔL / SL with SL = 1 + 0.015 x² / sqrt(20 + x²), x = mean L - 50. From 91.293
    // down to 88.11 x is 39.70, SL 1.592 and so 3.183 L* are 2.0 ΔE00.
    what: 'just inside by lightness',
    options: gray230,
    measured: colored(88.12, 0, 0),
    verdict: 'pass',
  },
  {
    what: 'just outside by lightness',
    options: gray230,
    measured: colored(88.1, 0, 0),
    verdict: 'fail',
    says: ['The backdrop is too dark: make it lighter, to match #e6e6e6.'],
  },
  {
    what: 'too light and too blue',
    options: gray230,
    measured: colored(97, 0, -5),
    verdict: 'fail',
    says: ['too light and off toward blue (cool)', 'darker and more yellow (warm)'],
  },
  {
    what: 'hardly off, with nothing allowed',
    options: { color: '#e6e6e6', tolerance: 0 },
    measured: colored(91.8, 0, 0),
    verdict: 'fail',
    says: ['Bring the backdrop to #e6e6e6', 'only slightly off'],
  },
  {
    what: 'a brand color',
    options: { color: '#2E5A88', tolerance: 1 },
    measured: background({ lab: rgbToLab(0x2e, 0x5a, 0x88) }),
    verdict: 'pass',
    says: ['is 0 ΔE00 from #2E5A88'],
  },
  {
    what: 'a pattern',
    options: neutral,
    measured: background({ confidence: 0.1, doubts: ['backdrop-not-plain'] }),
    verdict: 'unsure',
    says: ['The tint of the backdrop could not be measured'],
  },
  {
    what: 'a pattern against a named color',
    options: gray230,
    measured: background({ confidence: 0.1, doubts: ['backdrop-not-plain'] }),
    verdict: 'unsure',
  },
  { what: 'unreadable file', options: neutral, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: neutral, measured: { background: null }, verdict: 'unsure' },
])

testRefused(backgroundTint, [
  ['a short code', { color: '#fff', tolerance: 2 }],
  ['a name', { color: 'white', tolerance: 2 }],
  ['a color without its tolerance', { color: '#ffffff' }],
  ['both at once', { color: '#ffffff', tolerance: 2, 'max-chroma': 3 }],
])
