import { describe, expect, test } from 'vitest'
import { readSegments } from '../../../../src/measure/file/bytes/segments.ts'
import { noise } from '../../samples.ts'
import { EOI, frame, quantization, SOI, segment } from './jpeg-writer.ts'

const FLAT = Array.from({ length: 64 }, () => 16)
const SCAN = segment(0xda, Buffer.from([1, 1, 0, 0, 63, 0]))

describe('segments', () => {
  test('of a frame, a table and an application', () => {
    const jpeg = Buffer.concat([
      SOI,
      segment(0xe1, Buffer.from('Exif\0\0')),
      quantization(3, FLAT),
      frame(0xc0, [
        [1, 2, 1, 3],
        [2, 1, 1, 3],
      ]),
      SCAN,
      EOI,
    ])
    const { frame: found, tables, apps, scans, ended } = readSegments(jpeg)
    expect(found).toEqual({
      marker: 0xc0,
      precision: 8,
      width: 32,
      height: 48,
      heightAt: SOI.length + 10 + quantization(3, FLAT).length + 5,
      components: [
        { id: 1, h: 2, v: 1, table: 3 },
        { id: 2, h: 1, v: 1, table: 3 },
      ],
    })
    expect(tables.get(3)).toEqual(FLAT)
    expect(apps).toEqual([{ n: 1, payload: Buffer.from('Exif\0\0'), inHeader: true }])
    expect(scans).toBe(1)
    expect(ended).toBe(true)
  })

  test('16-bit table values (T.81 B.2.4.1, Pq = 1)', () => {
    const table = FLAT.map((value, k) => value + 300 * k)
    expect(readSegments(Buffer.concat([SOI, quantization(0, table, 16), EOI])).tables.get(0)).toEqual(table)
  })

  test('fill bytes before a marker, stuffed zeros and restart markers in coded data (T.81 B.1.1)', () => {
    const coded = Buffer.from([0x12, 0xff, 0x00, 0xd9, 0xff, 0xd0, 0x34, 0xff, 0xff, 0xff])
    const { scans, ended } = readSegments(Buffer.concat([SOI, SCAN, coded, EOI]))
    expect({ scans, ended }).toEqual({ scans: 1, ended: true })
  })

  test('an end marker inside a thumbnail is not the end', () => {
    const thumbnail = segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0'), SOI, EOI]))
    expect(readSegments(Buffer.concat([SOI, thumbnail, SCAN])).ended).toBe(false)
  })

  test('what follows the end is not read', () => {
    const trailer = Buffer.concat([SOI, segment(0xe2, Buffer.from('second')), EOI])
    expect(readSegments(Buffer.concat([SOI, EOI, trailer])).apps).toEqual([])
  })

  test('a table that is defined twice before the first scan: the later one', () => {
    const later = FLAT.map(() => 99)
    const jpeg = Buffer.concat([SOI, quantization(0, FLAT), quantization(0, later), SCAN, EOI])
    expect(readSegments(jpeg).tables.get(0)).toEqual(later)
  })

  test('a table that changes after the first scan does not count', () => {
    const later = FLAT.map(() => 99)
    const jpeg = Buffer.concat([SOI, quantization(0, FLAT), SCAN, quantization(0, later), EOI])
    expect(readSegments(jpeg).tables.get(0)).toEqual(FLAT)
  })
})

describe('malformed files give what could be read', () => {
  test('every cut of a real file', async () => {
    const jpeg = await noise(40, 50).jpeg().toBuffer()
    expect(readSegments(jpeg).ended).toBe(true)
    for (let length = 0; length < jpeg.length; length++) {
      expect(readSegments(jpeg.subarray(0, length)).ended, `${length} bytes`).toBe(false)
    }
  })

  test('a segment that claims less than its own length field', () => {
    expect(readSegments(Buffer.concat([SOI, Buffer.from([0xff, 0xe0, 0, 1]), EOI])).ended).toBe(false)
  })

  test('a frame of no components, and one that claims more than it holds', () => {
    expect(readSegments(Buffer.concat([SOI, frame(0xc0, []), EOI])).frame).toBeNull()
    const claim = segment(0xc0, Buffer.from([8, 0, 48, 0, 32, 200, 1, 0x11, 0]))
    expect(readSegments(Buffer.concat([SOI, claim, EOI])).frame).toBeNull()
  })

  test('a table that is too short', () => {
    const short = segment(0xdb, Buffer.alloc(40))
    expect(readSegments(Buffer.concat([SOI, short, EOI])).tables.size).toBe(0)
  })
})
