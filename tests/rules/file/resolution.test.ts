import { resolution } from '../../../src/rules/file/resolution.ts'
import { testCases, testRefused, UNREAD } from '../judging/cases.ts'

const print = { ppi: 300 }

testCases(resolution, [
  {
    what: 'exact',
    options: print,
    verdict: 'pass',
    says: ['The resolution is 300 ppi; the spec asks for 300 ppi.'],
  },
  // JFIF (ITU-T T.871) stores whole dots per cm: 118 x 2.54 = 299.72 ppi.
  { what: 'stored per cm', options: print, measured: { ppi: 299.72 }, verdict: 'pass', says: ['299.7 ppi'] },
  // PNG (third edition, 11.3.4.3) stores whole pixels per metre: 11811 x 0.0254 = 299.9994 ppi.
  { what: 'stored per metre', options: print, measured: { ppi: 299.9994 }, verdict: 'pass' },
  { what: 'at the lower limit', options: print, measured: { ppi: 299.5 }, verdict: 'pass' },
  {
    what: 'just under it',
    options: print,
    measured: { ppi: 299.49 },
    verdict: 'fail',
    says: [
      '299.49 ppi; the spec asks for 300 ppi, give or take 0.5',
      'Set the resolution to 300 ppi',
      'without resampling',
    ],
  },
  { what: 'at the upper limit', options: print, measured: { ppi: 300.5 }, verdict: 'pass' },
  { what: 'just over it', options: print, measured: { ppi: 300.51 }, verdict: 'fail', says: ['300.51 ppi'] },
  { what: 'a screen tag', options: print, measured: { ppi: 72 }, verdict: 'fail', says: ['72 ppi'] },
  {
    what: 'another tolerance',
    options: { ppi: 300, tolerance: 10 },
    measured: { ppi: 291 },
    verdict: 'pass',
    says: ['give or take 10'],
  },
  {
    what: 'no tag',
    options: print,
    measured: { ppi: null },
    verdict: 'fail',
    says: ['has no resolution tag; the spec asks for 300 ppi', 'Set the resolution to 300 ppi'],
    found: 'no tag',
  },
  { what: 'unreadable file', options: print, measured: UNREAD, verdict: 'skip' },
  { what: 'header not read', options: print, measured: { widthPx: null, ppi: null }, verdict: 'unsure' },
])

testRefused(resolution, [
  ['zero', { ppi: 0 }],
  ['a bare number', 300],
  ['a negative tolerance', { ppi: 300, tolerance: -1 }],
])
