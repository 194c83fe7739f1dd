import { aspectRatio } from '../../../src/rules/file/aspect-ratio.ts'
import { testCases, testRefused, UNREAD } from '../judging/cases.ts'

const size = (widthPx: number, heightPx: number) => ({ widthPx, heightPx })

testCases(aspectRatio, [
  {
    what: 'exact',
    options: '4:5',
    verdict: 'pass',
    says: ['The picture is 2400 x 3000 px (4:5); the spec asks for 4:5.'],
  },
  {
    // 4/5 of 2048 is 1638.4: no whole size is exact, this one is 0.4 px off.
    what: 'an uneven size',
    options: '4:5',
    measured: size(1638, 2048),
    verdict: 'pass',
    says: ['1638 x 2048 px; the spec'],
  },
  { what: '1 px too wide', options: '4:5', measured: size(2401, 3000), verdict: 'pass' },
  { what: '1 px too high', options: '4:5', measured: size(2400, 3001), verdict: 'pass' },
  {
    what: '2 px too wide',
    options: '4:5',
    measured: size(2402, 3000),
    verdict: 'fail',
    says: ['Crop 2 px off the width, to 2400 x 3000 px'],
  },
  {
    what: '2 px too high',
    options: '4:5',
    measured: size(2400, 3002),
    verdict: 'fail',
    says: ['Crop 2 px off the height, to 2400 x 3000 px'],
  },
  {
    what: '3:4 is not 4:5',
    options: '4:5',
    measured: size(2250, 3000),
    verdict: 'fail',
    says: ['2250 x 3000 px (3:4)', 'Crop 187 px off the height, to 2250 x 2813 px'],
  },
  {
    // 35 x 45 mm is .777778, a common size of identity pictures.
    what: '35:45 is not 4:5',
    options: '4:5',
    measured: size(700, 900),
    verdict: 'fail',
  },
  {
    what: 'on its side',
    options: '4:5',
    measured: size(3000, 2400),
    verdict: 'fail',
    says: ['is on its side'],
  },
  {
    what: 'the longest ratio that is worth showing',
    options: '4:5',
    measured: size(1900, 2000),
    verdict: 'fail',
    found: '1900 x 2000 px (19:20)',
  },
  {
    what: 'a ratio that would only puzzle',
    options: '4:5',
    measured: size(2000, 2100),
    verdict: 'fail',
    found: '2000 x 2100 px',
  },
  { what: 'a square', options: '1:1', measured: size(800, 800), verdict: 'pass' },
  { what: 'a square off by 1 px', options: '1:1', measured: size(800, 801), verdict: 'pass' },
  { what: 'a square off by 2 px', options: '1:1', measured: size(802, 800), verdict: 'fail' },
  { what: 'decimals', options: '8.5:11', measured: size(850, 1100), verdict: 'pass' },
  { what: '8 x 10 in is 4:5', options: '8:10', measured: size(2400, 3000), verdict: 'pass' },
  { what: 'unreadable file', options: '4:5', measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: '4:5', measured: { widthPx: null }, verdict: 'unsure' },
])

testRefused(aspectRatio, [
  ['a number', 0.8],
  ['words', 'portrait'],
  ['a slash', '4/5'],
  ['nothing on one side', '0:5', '0:5 is not a ratio'],
  ['nothing on the other', '5:0', '5:0 is not a ratio'],
])
