import { NO_COMPARISON, type Preview } from '../../../src/measure/schema/preview-facts.ts'
import { stalePreview } from '../../../src/rules/metadata/stale-preview.ts'
import { metadata, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const preview = (changes: Partial<Preview>): Preview => ({
  where: 'EXIF thumbnail',
  bytes: 9000,
  widthPx: 160,
  heightPx: 200,
  ...NO_COMPARISON,
  similarity: 0.99,
  ...changes,
})
const shows = (changes: Partial<Preview>) => metadata({ previews: [preview(changes)] })
const size = (stale: boolean) => ({
  where: 'EXIF PixelXDimension x PixelYDimension',
  widthPx: stale ? 3552 : 2400,
  heightPx: stale ? 2000 : 3000,
  stale,
})

testCases(stalePreview, [
  {
    what: 'no preview',
    options: true,
    verdict: 'pass',
    says: ['The file has no preview; no stated size is wrong.'],
    found: 'no preview',
  },
  {
    what: 'the same picture and the right size',
    options: true,
    measured: metadata({ previews: [preview({ shows: 'same' })], statedSizes: [size(false)] }),
    verdict: 'pass',
    says: ['The EXIF thumbnail shows the picture'],
  },
  {
    what: 'another crop',
    options: true,
    measured: shows({ shows: 'other-crop', crop: { x: 0.1, y: 0.02, width: 0.8, height: 0.784 } }),
    verdict: 'fail',
    says: [
      'shows a different crop: the picture covers 80 % of its width and 78 % of its height.',
      'Take the thumbnail out, or let the export make a new one',
    ],
    found: 'EXIF thumbnail: another crop',
  },
  {
    what: 'a frame before the retouch',
    options: true,
    measured: shows({
      shows: 'other-retouch',
      changedPct: 1.26,
      changed: { x: 0.1, y: 0.2, width: 0.04, height: 0.02 },
    }),
    verdict: 'fail',
    says: ['differs in 1.3 % of the frame, around 12 % from the left and 21 % from the top'],
  },
  {
    what: 'turned',
    options: true,
    measured: shows({ shows: 'turned', turn: 'rotated by 180°' }),
    verdict: 'fail',
    says: ['the picture is rotated by 180° beside it'],
  },
  {
    what: 'other colors',
    options: true,
    measured: shows({ shows: 'other-tones' }),
    verdict: 'fail',
    says: ['before the color grade'],
  },
  {
    what: 'another picture',
    options: true,
    measured: shows({ shows: 'other-picture' }),
    verdict: 'fail',
    says: ['shows another picture'],
  },
  {
    what: 'a stale size',
    options: true,
    measured: metadata({ statedSizes: [size(true)] }),
    verdict: 'fail',
    says: [
      'The picture is 2400 x 3000 px, but EXIF PixelXDimension x PixelYDimension says 3552 x 2000 px.',
      'Take the size tags out, or let the export rewrite them.',
    ],
  },
  {
    what: 'both',
    options: true,
    measured: metadata({ previews: [preview({ shows: 'other-picture' })], statedSizes: [size(true)] }),
    verdict: 'fail',
    says: ['make a new one; take the size tags out, or let the export rewrite them'],
  },
  {
    what: 'one stale preview of two',
    options: true,
    measured: metadata({
      previews: [preview({ shows: 'same' }), preview({ where: 'Photoshop thumbnail', shows: 'other-tones' })],
    }),
    verdict: 'fail',
    says: ['The Photoshop thumbnail shows different colors'],
  },
  ...(['not-read', 'picture-not-decoded', 'too-small', 'flat', 'hardly-different'] as const).map((doubt) => ({
    what: `in doubt: ${doubt}`,
    options: true,
    measured: shows({ doubt }),
    verdict: 'unsure' as const,
    says: ['the EXIF thumbnail', 'check by eye'],
  })),
  {
    what: 'a damaged block may hold one',
    options: true,
    measured: metadata({ unreadable: [{ where: 'EXIF', why: 'damaged' }] }),
    verdict: 'unsure',
    says: ['EXIF is damaged'],
  },
  {
    what: 'data after the end may be one',
    options: true,
    measured: metadata({ opaque: [{ where: 'data after the end of the picture', bytes: 1000 }] }),
    verdict: 'unsure',
  },
  {
    what: 'less than a kilobyte is none',
    options: true,
    measured: metadata({ opaque: [{ where: 'JPEG segment APP15', bytes: 999 }] }),
    verdict: 'pass',
  },
  { what: 'metadata not measured', options: true, measured: { metadata: null }, verdict: 'unsure' },
  { what: 'unreadable file', options: true, measured: UNREAD, verdict: 'skip' },
])

testRefused(stalePreview, [
  ['false', false],
  ['a word', 'yes'],
])
