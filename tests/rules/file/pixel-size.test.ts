import { pixelSize } from '../../../src/rules/file/pixel-size.ts'
import { testCases, testRefused, UNREAD } from '../judging/cases.ts'

const print = { width: 2400, height: 3000 }
const size = (widthPx: number, heightPx: number) => ({ widthPx, heightPx })

testCases(pixelSize, [
  {
    what: 'exact',
    options: print,
    verdict: 'pass',
    says: ['The picture is 2400 x 3000 px; the spec asks for a width of 2400 px and a height of 3000 px.'],
  },
  {
    what: 'one pixel too narrow',
    options: print,
    measured: size(2399, 3000),
    verdict: 'fail',
    says: [
      'The picture is 2399 x 3000 px; the spec asks for a width of 2400 px.',
      'Export again from the original with a width of 2400 px',
      'enlarging this file',
    ],
    asked: 'a width of 2400 px',
  },
  {
    what: 'one pixel too high',
    options: print,
    measured: size(2400, 3001),
    verdict: 'fail',
    says: [
      'The picture is 2400 x 3001 px; the spec asks for a height of 3000 px.',
      'Crop the picture to a width of 2400 px and a height of 3000 px.',
    ],
  },
  {
    what: 'one pixel too large on both edges',
    options: print,
    measured: size(2401, 3001),
    verdict: 'fail',
    says: ['Size the picture down to a width of 2400 px and a height of 3000 px.'],
  },
  {
    what: 'on its side',
    options: print,
    measured: size(3000, 2400),
    verdict: 'fail',
    says: ['is on its side', 'rotate it by 90°'],
  },
  {
    what: 'long edge at its least',
    options: { 'long-edge': { min: 2000 } },
    measured: size(2000, 1600),
    verdict: 'pass',
    says: ['a long edge of at least 2000 px'],
  },
  {
    what: 'long edge under it',
    options: { 'long-edge': { min: 2000 } },
    measured: size(1600, 1999),
    verdict: 'fail',
    says: ['at least 2000 px; enlarging'],
  },
  {
    what: 'short edge at its most',
    options: { 'short-edge': { max: 800 } },
    measured: size(800, 900),
    verdict: 'pass',
  },
  {
    what: 'short edge over it',
    options: { 'short-edge': { max: 800 } },
    measured: size(900, 801),
    verdict: 'fail',
    says: ['Size the picture down to a short edge of at most 800 px.'],
  },
  {
    what: 'ranges: at both ends',
    options: { width: { min: 600, max: 800 }, height: { min: 600, max: 800 } },
    measured: size(600, 800),
    verdict: 'pass',
    says: ['a width of 600 to 800 px'],
  },
  {
    what: 'two misses in one sentence',
    options: { width: { min: 600, max: 800 }, height: { min: 600, max: 800 } },
    measured: size(599, 801),
    verdict: 'fail',
    says: ['with a width of 600 to 800 px and a height of 600 to 800 px'],
  },
  {
    // EXIF orientation 5 to 8 swap the stored edges (CIPA DC-008); the displayed size is what counts.
    what: 'stored on its side but shown upright',
    options: print,
    measured: { orientationTag: 6 },
    verdict: 'pass',
  },
  { what: 'height not measured', options: print, measured: { heightPx: null }, verdict: 'unsure' },
  { what: 'unreadable file', options: print, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: print, measured: { widthPx: null, heightPx: null }, verdict: 'unsure' },
])

testRefused(pixelSize, [
  ['nothing', {}],
  ['zero', { width: 0 }],
  ['fractions', { width: 2400.5 }],
  ['text', { width: '2400 px' }],
  ['an empty range', { width: {} }],
  ['min above max', { height: { min: 900, max: 800 } }, 'height: min is 900 and max is 800'],
])
