import sharp from 'sharp'
import { expect, test } from 'vitest'
import { FORMATS, formatName, isFormat } from '../../../src/rules/judging/format-names.ts'

// The file suffixes that libvips (through npm sharp) knows for the formats it reads.
test.each([
  ['jpeg', 'jpeg'],
  ['png', 'png'],
  ['tiff', 'tiff'],
  ['webp', 'webp'],
  ['avif', 'heif'],
] as const)('the extensions of %s are those of libvips', (id, loader) => {
  const suffixes = sharp.format[loader].input.fileSuffix ?? []
  expect(FORMATS[id].extensions.map((extension) => `.${extension}`).sort()).toEqual([...suffixes].sort())
})

test('names', () => {
  expect(formatName('jpeg')).toBe('JPEG')
  expect(formatName('webp')).toBe('WebP')
  expect(formatName('heic')).toBe('HEIC')
  expect(formatName('raw')).toBe('camera raw')
  expect(formatName('toString')).toBe('TOSTRING')
})

test('words of the language are no formats', () => {
  expect(isFormat('png')).toBe(true)
  for (const word of ['constructor', '__proto__', 'gif']) expect(isFormat(word)).toBe(false)
})
