import { describe, expect, test } from 'vitest'
import { readSegments } from '../../../../src/measure/file/bytes/segments.ts'
import { readDirectory } from '../../../../src/measure/file/bytes/tiff.ts'
import { exifPpi, jfifPpi, pngPpi, tiffPpi } from '../../../../src/measure/file/container/resolution.ts'
import { EOI, SOI, segment } from '../bytes/jpeg-writer.ts'
import { type Entry, writeTiff } from '../bytes/tiff-writer.ts'

describe('JFIF (ITU-T T.871, 10.1)', () => {
  const jfif = (units: number, density: number) => {
    const payload = Buffer.from('JFIF\0\x01\x02\0\0\0\0\0\0\0', 'latin1')
    payload.writeUInt8(units, 7)
    payload.writeUInt16BE(density, 8)
    payload.writeUInt16BE(density, 10)
    return jfifPpi(readSegments(Buffer.concat([SOI, segment(0xe0, payload), EOI])))
  }

  test.each([
    ['dots per inch', 1, 300, 300],
    ['dots per cm: 118 x 2.54', 2, 118, 299.72],
    ['no unit: an aspect ratio', 0, 1, null],
    ['an unknown unit', 3, 300, null],
    ['zero', 1, 0, null],
  ] as const)('%s', (_, units, density, ppi) => {
    expect(jfif(units, density)).toBe(ppi)
  })

  test('absent or cut short', () => {
    expect(jfifPpi(readSegments(Buffer.concat([SOI, EOI])))).toBeNull()
    expect(
      jfifPpi(readSegments(Buffer.concat([SOI, segment(0xe0, Buffer.from('JFIF\0\x01\x02\x01')), EOI]))),
    ).toBeNull()
  })
})

describe('PNG (pHYs)', () => {
  const phys = (perUnit: number, unit: number) => {
    const data = Buffer.alloc(9)
    data.writeUInt32BE(perUnit, 0)
    data.writeUInt32BE(perUnit, 4)
    data.writeUInt8(unit, 8)
    return pngPpi([{ type: 'pHYs', data }])
  }

  test.each([
    ['11811 per metre is what 300 ppi rounds to', 11811, 1, 300],
    ['2835 per metre is what 72 ppi rounds to', 2835, 1, 72.01],
    ['no unit', 1, 0, null],
    ['zero', 0, 1, null],
  ] as const)('%s', (_, perUnit, unit, ppi) => {
    expect(phys(perUnit, unit)).toBe(ppi)
  })

  test('absent or cut short', () => {
    expect(pngPpi([])).toBeNull()
    expect(pngPpi([{ type: 'pHYs', data: Buffer.alloc(8) }])).toBeNull()
  })
})

describe('TIFF and Exif (TIFF 6.0 section 8, CIPA DC-008 4.6.4)', () => {
  const INCH: Entry = [0x128, 3, [2]]
  const CM: Entry = [0x128, 3, [3]]
  const NONE: Entry = [0x128, 3, [1]]
  const at = (numerator: number, denominator: number): Entry => [0x11a, 5, [numerator, denominator]]

  test.each([
    ['per inch', [at(300, 1), INCH], 300],
    ['per inch when no unit is given', [at(2400, 10)], 240],
    ['per cm: 118.11 x 2.54', [at(11811, 100), CM], 300],
    ['no absolute unit', [at(1, 1), NONE], null],
    ['zero', [at(0, 1), INCH], null],
    ['over zero', [at(300, 0), INCH], null],
    ['unit alone', [INCH], null],
  ] as const)('%s', (_, entries, ppi) => {
    const { tiff } = writeTiff({ entries })
    const directory = readDirectory(tiff)
    expect(directory && tiffPpi(directory)).toBe(ppi)
    expect(exifPpi(tiff)).toBe(ppi)
    expect(exifPpi(Buffer.concat([Buffer.from('Exif\0\0'), tiff]))).toBe(ppi)
  })

  test('malformed Exif states nothing', () => {
    expect(exifPpi(Buffer.from('Exif\0\0'))).toBeNull()
    expect(exifPpi(Buffer.alloc(0))).toBeNull()
  })
})
