import { expect, test } from 'vitest'
import { type FileKind, fileKind } from '../../src/delivery/file-kinds.ts'

const CASES: [FileKind, string[]][] = [
  [
    'picture',
    [
      'a.pjpeg',
      'a.MPO',
      'a.jpg ',
      'a.jpg.',
      'a.jpg. .',
      'a.jpg',
      'A.JPEG',
      'b.Tif',
      'c.heic',
      'd.svg',
      'e.nef',
      'f.psd',
      'g.backup.webp',
      'CON.jpg',
    ],
  ],
  [
    'sidecar',
    ['a.xmp', 'IMG_1.AAE', 'staff.csv', 'brand.yaml', 'Thumbs.db', 'desktop.ini', 'license.PDF', 'Icon\r'],
  ],
  ['hidden', ['.DS_Store', '._a.jpg', '.jpg', '__MACOSX', '..a']],
  ['other', ['a.docx', 'a', 'a.jpg.zip', 'jpg', 'a.', 'a ', 'a.mov']],
]

test.each(CASES)('%s', (kind, names) => {
  for (const name of names) expect(fileKind(name), name).toBe(kind)
})
