import { describe, expect, test } from 'vitest'
import { isCameraRaw, isCutShort, readDirectory } from '../../../../src/measure/file/bytes/tiff.ts'
import { patched, plain } from '../../samples.ts'
import { rgbTiff, writeTiff } from './tiff-writer.ts'

const ENTRY_COUNT = 8
const FIRST_ENTRY = 10

describe('directory', () => {
  test.each(['II', 'MM'] as const)('numbers in byte order %s', (order) => {
    const { tiff } = writeTiff({
      order,
      entries: [
        [0x100, 3, [7]],
        [0x102, 3, [8, 8, 8]],
        [0x111, 4, [70_000]],
        [0x11a, 5, [3000, 10]],
      ],
    })
    const directory = readDirectory(tiff)
    expect(directory?.numbers(0x100)).toEqual([7])
    expect(directory?.numbers(0x102)).toEqual([8, 8, 8])
    expect(directory?.numbers(0x111)).toEqual([70_000])
    expect(directory?.numbers(0x11a)).toEqual([300])
    expect(directory?.numbers(0x999)).toBeNull()
  })

  test('values that are no numbers, too many or beyond the end', () => {
    const { tiff } = writeTiff({ entries: [[0x11a, 5, [300, 1]]] })
    const numbers = (change: (copy: Buffer) => void) => readDirectory(patched(tiff, change))?.numbers(0x11a)
    expect(numbers((copy) => copy.writeUInt16LE(2, FIRST_ENTRY + 2))).toBeNull()
    expect(numbers((copy) => copy.writeUInt32LE(0, FIRST_ENTRY + 4))).toBeNull()
    expect(numbers((copy) => copy.writeUInt32LE(0xffffffff, FIRST_ENTRY + 4))).toBeNull()
    expect(numbers((copy) => copy.writeUInt32LE(0xfffffff0, FIRST_ENTRY + 8))).toBeNull()
  })

  test.each([
    ['no TIFF', Buffer.from('Exif data, or so it says')],
    ['too short', Buffer.from('II\x2a\0')],
    [
      'an offset beyond the end',
      patched(writeTiff({ entries: [] }).tiff, (copy) => copy.writeUInt32LE(9999, 4)),
    ],
    [
      'more entries than it holds',
      patched(writeTiff({ entries: [] }).tiff, (copy) => copy.writeUInt16LE(9, ENTRY_COUNT)),
    ],
    ['a BigTIFF', Buffer.from('II\x2b\0\x08\0\0\0\0\0\0\0')],
  ])('none: %s', (_, tiff) => {
    expect(readDirectory(tiff)).toBeNull()
  })
})

describe('strips', () => {
  const pixels = Buffer.alloc(30 * 20 * 3, 128)
  const tiff = rgbTiff(30, 20, 6, pixels)

  test('all there', () => {
    expect(isCutShort(tiff)).toBe(false)
  })

  test('one byte missing, half, and all of them', () => {
    for (const length of [tiff.length - 1, tiff.length - pixels.length / 2, tiff.length - pixels.length]) {
      expect(isCutShort(tiff.subarray(0, length))).toBe(true)
    }
  })

  test('a value beyond the end, unless the tag is a private one', () => {
    const lost = (tag: number) => {
      const { tiff: whole } = writeTiff({ entries: [[tag, 5, [300, 1]]] })
      return isCutShort(whole.subarray(0, -4))
    }
    expect(lost(0x11a)).toBe(true)
    expect(lost(40_000)).toBe(false)
  })

  test('the directory itself missing', () => {
    expect(isCutShort(tiff.subarray(0, 8))).toBe(true)
  })

  test('as sharp writes them: strips, tiles, BigTIFF', async () => {
    const picture = plain([200, 150, 120], 300, 300)
    const strips = await picture.clone().tiff().toBuffer()
    const tiles = await picture.clone().tiff({ tile: true, tileWidth: 64, tileHeight: 64 }).toBuffer()
    const big = await picture.clone().tiff({ bigtiff: true }).toBuffer()
    for (const whole of [strips, tiles, big]) expect(isCutShort(whole)).toBe(false)
    for (const whole of [strips, tiles]) expect(isCutShort(whole.subarray(0, whole.length / 2))).toBe(true)
    // Left to the decoder.
    expect(isCutShort(big.subarray(0, big.length / 2))).toBe(false)
  })
})

test('a raw file is told by its first directory', () => {
  expect(isCameraRaw(writeTiff({ entries: [[0xfe, 4, [1]]] }).tiff)).toBe(true)
  expect(isCameraRaw(writeTiff({ entries: [[0xfe, 4, [2]]] }).tiff)).toBe(false)
  expect(isCameraRaw(Buffer.from('II\x2a\0'))).toBe(false)
})
