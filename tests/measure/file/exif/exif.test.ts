import { describe, expect, test } from 'vitest'
import { exifText, exifTexts, isFilled, readExif } from '../../../../src/measure/file/exif/exif.ts'
import { bytesRead } from '../../../calls.ts'
import { ascii, bytes, directory, long, rational, short, writeExif } from './exif-writer.ts'

const ARTIST = 0x013b
const COPYRIGHT = 0x8298

const read = (...tags: Parameters<typeof writeExif>[0]['main'] & object) =>
  readExif(writeExif({ main: tags }), true)

describe('directories', () => {
  test('all four', () => {
    const tiff = writeExif({
      main: [ascii(ARTIST, 'Mika Thorne')],
      exif: [ascii(0xa431, 'BODY-1')],
      gps: [rational(0x0002, 55, 1, 2, 1, 1952, 100)],
      preview: Buffer.from('jpeg'),
    })
    const exif = readExif(tiff, true)
    expect(exif?.damaged).toBe(false)
    expect(exifText(exif?.main ?? null, ARTIST)).toBe('Mika Thorne')
    expect(exifText(exif?.exif ?? null, 0xa431)).toBe('BODY-1')
    expect(exif?.gps?.numbers(0x0002)).toEqual([55, 2, 19.52])
    expect(exif?.thumbnail?.numbers(0x0202)).toEqual([4])
  })

  test('the second directory of a TIFF file is its next page, not a thumbnail', () => {
    expect(readExif(writeExif({ preview: Buffer.from('jpeg') }), false)?.thumbnail).toBeNull()
  })

  test('no TIFF structure', () => {
    expect(readExif(Buffer.from('not a TIFF structure at all'), true)).toBeNull()
    expect(readExif(Buffer.alloc(0), true)).toBeNull()
  })
})

describe('texts', () => {
  test.each([
    ['plain', 'Mika Thorne', ['Mika Thorne']],
    ['UTF-8, as the MWG Guidelines ask', 'Åsa', ['Åsa']],
    ['blank', '      ', []],
    // CIPA DC-008, 4.6.4 D: photographer, NUL, editor, NUL; a space where only the editor is named.
    ['photographer and editor', 'Mika Thorne\0Osprey Lane', ['Mika Thorne', 'Osprey Lane']],
    ['editor alone', ' \0Osprey Lane', ['Osprey Lane']],
  ])('%s', (_, text, texts) =>
    expect(exifTexts(read(ascii(COPYRIGHT, text))?.main ?? null, COPYRIGHT)).toEqual(texts),
  )

  test('Latin-1', () => {
    expect(exifText(read(ascii(ARTIST, Buffer.from('José\0', 'latin1')))?.main ?? null, ARTIST)).toBe('José')
  })

  // Exif 3.0 (CIPA DC-008-2023) adds type 129 for UTF-8.
  test('of type UTF-8', () => {
    const value = Buffer.from('Åsa\0')
    expect(exifText(read({ tag: ARTIST, type: 129, count: value.length, value })?.main ?? null, ARTIST)).toBe(
      'Åsa',
    )
  })

  test('a hundred megabytes of text are cut', () => {
    const long = read(ascii(ARTIST, 'x'.repeat(100_000)))
    expect(exifText(long?.main ?? null, ARTIST)).toHaveLength(65_536)
  })
})

test('filled means more than NULs and spaces', () => {
  const exif = read(
    bytes(1, Buffer.alloc(9)),
    bytes(2, Buffer.from('   ')),
    bytes(3, Buffer.from('ASCII\0\0\0  ')),
    short(4, 7),
  )
  const filled = [1, 2, 4, 5].map((tag) => isFilled(exif?.main ?? null, tag))
  expect(filled).toEqual([false, false, true, false])
  expect(isFilled(exif?.main ?? null, 3)).toBe(true)
  expect(isFilled(exif?.main ?? null, 3, 8)).toBe(false)
  expect(isFilled(null, 1)).toBe(false)
})

describe('hostile blocks', () => {
  const HEAD = Buffer.from('II\x2a\0\x08\0\0\0', 'latin1')

  test('directories that point at each other', () => {
    const loop = Buffer.concat([
      HEAD,
      directory([long(0x8769, 8), long(0x8825, 8), ascii(ARTIST, 'Mika')], 8, 8),
    ])
    const exif = readExif(loop, true)
    expect(exifText(exif?.main ?? null, ARTIST)).toBe('Mika')
    expect(exif?.exif?.tags).toEqual(exif?.main.tags)
  })

  test('a count beyond the block hides no other tag, and is told', () => {
    for (const type of [2, 3, 4, 5, 7]) {
      const huge = { tag: COPYRIGHT, type, count: 0xffffffff, value: Buffer.from([8, 0, 0, 0]) }
      const exif = read(huge, ascii(ARTIST, 'Mika'))
      expect(exif?.damaged).toBe(true)
      expect(exifText(exif?.main ?? null, ARTIST)).toBe('Mika')
      expect(exifText(exif?.main ?? null, COPYRIGHT)).toBeNull()
    }
  })

  test('a maker note that was torn by moving it is no damage', () => {
    const torn = { tag: 0x927c, type: 7, count: 1000, value: Buffer.from([0xff, 0xff, 0, 0]) }
    expect(readExif(writeExif({ exif: [torn] }), true)?.damaged).toBe(false)
  })

  test.each([0x8769, 0x8825])('pointer %i out of the block', (pointer) => {
    expect(read(long(pointer, 100_000))?.damaged).toBe(true)
    expect(read(ascii(pointer, 'no number'))?.damaged).toBe(true)
  })

  test('a second directory out of the block', () => {
    const lost = Buffer.concat([HEAD, directory([ascii(ARTIST, 'Mika')], 8, 100_000)])
    expect(readExif(lost, true)?.damaged).toBe(true)
    expect(readExif(lost, false)?.damaged).toBe(false)
  })

  test('of 5,000 entries that share their values none is read until it is asked for', () => {
    const count = 5000
    const entries = Array.from({ length: count }, (_, n) => ({
      tag: n,
      type: 3,
      count: 25_000,
      value: Buffer.from([8, 0, 0, 0]),
    }))
    const block = Buffer.concat([HEAD, directory(entries, 8, 0)])
    const reads = bytesRead(() => expect(readExif(block, true)?.main.tags).toHaveLength(count))
    expect(reads).toBeLessThan(10 * count)
  })

  test('every cut and every flipped byte of a block is survived', () => {
    const whole = writeExif({
      main: [ascii(ARTIST, 'Mika Thorne')],
      exif: [ascii(0xa431, 'BODY-1')],
      gps: [rational(2, 55, 1, 2, 1, 19, 1)],
      preview: Buffer.from('jpeg'),
    })
    for (let at = 0; at < whole.length; at++) {
      const flipped = Buffer.from(whole)
      flipped[at] = 255 - (whole[at] as number)
      for (const block of [whole.subarray(0, at), flipped]) {
        const exif = readExif(block, true)
        for (const name of ['main', 'exif', 'gps', 'thumbnail'] as const)
          exifTexts(exif?.[name] ?? null, ARTIST)
      }
    }
  })
})
