import { expect, test } from 'vitest'
import { unreadableText } from '../../../src/rules/judging/unreadable.ts'
import { GOOD_METADATA } from './cases.ts'

test.each([
  [[], null],
  [[{ where: 'XMP', why: 'damaged' }], 'XMP is damaged'],
  [
    [
      { where: 'XMP', why: 'too-large' },
      { where: 'BigTIFF', why: 'unsupported' },
      { where: 'EXIF', why: 'too-many' },
    ],
    'XMP exceeds the limit of 1 MiB, BigTIFF is in an unsupported form and EXIF occurs too often to read it all',
  ],
] as const)('%j', (unreadable, text) => {
  expect(unreadableText({ ...GOOD_METADATA, unreadable: [...unreadable] })).toBe(text)
})
