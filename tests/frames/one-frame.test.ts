import { expect, test } from 'vitest'
import { areOneFrame, byFrame, type FrameFile } from '../../src/frames/one-frame.ts'

const at = (file: string, captureTime: string | null = null): FrameFile => ({ file, captureTime })

// ISO 8601 times, as cameras write them into one file with and into the other without zone and fraction.
test.each([
  ['one folder', at('a/IMG_1.JPG'), at('a/IMG_1.NEF'), true],
  ['capital and small letters', at('a/IMG_1.JPG'), at('a/img_1.dng'), true],
  [
    'one second in two folders',
    at('a/IMG_1.JPG', '2026-05-12T09:00:00.25+02:00'),
    at('b/IMG_1.NEF', '2026-05-12T09:00:00'),
    true,
  ],
  [
    'two seconds in two folders',
    at('a/IMG_1.JPG', '2026-05-12T09:00:00'),
    at('b/IMG_1.NEF', '2026-05-12T09:00:01'),
    false,
  ],
  ['two folders and no time', at('a/IMG_1.JPG'), at('b/IMG_1.NEF'), false],
  ['a day alone', at('a/IMG_1.JPG', '2026-05-12'), at('b/IMG_1.NEF', '2026-05-12'), false],
  ['one format', at('a/IMG_1.JPG', '2026-05-12T09:00:00'), at('b/IMG_1.JPEG', '2026-05-12T09:00:00'), false],
  ['two names', at('a/IMG_1.JPG', '2026-05-12T09:00:00'), at('a/IMG_2.NEF', '2026-05-12T09:00:00'), false],
])('%s', (_, one, other, expected) => {
  expect([areOneFrame(one, other), areOneFrame(other, one)]).toEqual([expected, expected])
})

test('a frame is judged by its JPEG, wherever its raw file stands in the list, and each file belongs to one frame', () => {
  const time = '2026-05-12T09:00:00'
  const files = ['raw/1.CR2', 'raw/2.CR2', 'web/1.JPG', 'web/1.TIF', 'more/1.JPG'].map((file) =>
    at(file, time),
  )
  const found = byFrame(files).map(({ judged, others }) => [judged.file, ...others.map(({ file }) => file)])
  expect(found).toEqual([['raw/2.CR2'], ['web/1.JPG', 'web/1.TIF', 'raw/1.CR2'], ['more/1.JPG']])
})
