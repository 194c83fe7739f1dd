import { orientation } from '../../../src/rules/file/orientation.ts'
import { testCases, testRefused, UNREAD } from '../judging/cases.ts'

// Exif (CIPA DC-008), tag 0x0112, in the words of exiftool for what a viewer does: 2 "Mirror horizontal",
// 3 "Rotate 180", 4 "Mirror vertical", 5 "Mirror horizontal and rotate 270 CW", 6 "Rotate 90 CW",
// 7 "Mirror horizontal and rotate 90 CW", 8 "Rotate 270 CW". 270° clockwise is 90° counterclockwise.
const turned = [
  [2, 'mirror the pixels left to right and clear'],
  [3, 'rotate the pixels by 180° and clear'],
  [4, 'mirror the pixels top to bottom and clear'],
  [5, 'mirror the pixels left to right and rotate them by 90° counterclockwise'],
  [6, 'rotate the pixels by 90° clockwise and clear'],
  [7, 'mirror the pixels left to right and rotate them by 90° clockwise'],
  [8, 'rotate the pixels by 90° counterclockwise and clear'],
] as const

testCases(orientation, [
  { what: 'tag 1', options: 'upright', verdict: 'pass', says: ['stored upright (tag 1)'] },
  {
    what: 'no tag',
    options: 'upright',
    measured: { orientationTag: null },
    verdict: 'pass',
    says: ['(no tag)'],
  },
  ...turned.map(([tag, words]) => ({
    what: `tag ${tag}`,
    options: 'upright',
    measured: { orientationTag: tag },
    verdict: 'fail' as const,
    says: [`not stored upright (EXIF orientation ${tag})`, words, 'clear the tag (set it to 1)'],
  })),
  { what: 'unreadable file', options: 'upright', measured: UNREAD, verdict: 'skip' },
  {
    what: 'header not read',
    options: 'upright',
    measured: { widthPx: null, orientationTag: null },
    verdict: 'unsure',
  },
])

testRefused(orientation, [['another word', 'portrait']])
