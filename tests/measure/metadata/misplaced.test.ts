import { deflateSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { measureMetadata } from '../../../src/measure/metadata/metadata.ts'
import type { Decodable } from '../../../src/measure/schema/formats.ts'
import type { Metadata } from '../../../src/measure/schema/metadata.ts'
import { startedExiftool } from '../../outside/exiftool.ts'
import { segment, withSegments } from '../file/bytes/jpeg-writer.ts'
import { chunk, withChunks } from '../file/bytes/png-writer.ts'
import { ascii, bytes, directory, exifSegment, long, rational, writeExif } from '../file/exif/exif-writer.ts'
import { plain, temporaryFile } from '../samples.ts'
import { resource, writeIim } from './formats/iim-writer.ts'
import { packet, xmpSegment } from './formats/xmp-writer.ts'

// Where no standard has them, and other readers find them all the same.
const exiftool = startedExiftool()
const LATITUDE = rational(0x0002, 55, 1, 2, 1, 1952, 100)
const CITY = packet('<photoshop:City>Osprey</photoshop:City>')
const GPS = writeExif({ gps: [LATITUDE] })
const EMPTY = writeExif({})

const jpeg = async (tiff: Buffer) =>
  withSegments(await plain([200, 150, 120]).jpeg().toBuffer(), [segment(0xe1, exifSegment(tiff))])
const saved = (format: 'webp' | 'png') => plain([200, 150, 120]).toFormat(format).toBuffer()

/** An Exif block whose GPS directory only the directory of Exif leads to. */
function gpsWithinExif(): Buffer {
  const at = { exif: 26, gps: 26 + 18 }
  return Buffer.concat([
    Buffer.from('II\x2a\0\x08\0\0\0', 'latin1'),
    directory([long(0x8769, at.exif)], 8, 0),
    directory([long(0x8825, at.gps)], at.exif, 0),
    directory([LATITUDE], at.gps, 0),
  ])
}

/** An Exif block with two pointers to GPS, the first of which leads to an empty directory. */
function twoPointers(): Buffer {
  const at = { empty: 8 + 30, gps: 8 + 30 + 6 }
  return Buffer.concat([
    Buffer.from('II\x2a\0\x08\0\0\0', 'latin1'),
    directory([long(0x8825, at.empty), long(0x8825, at.gps)], 8, 0),
    directory([], at.empty, 0),
    directory([LATITUDE], at.gps, 0),
  ])
}

/** An Exif block with a third directory in the chain. */
function threeDirectories(): Buffer {
  const [second, third] = [8 + 6, 8 + 6 + 6]
  return Buffer.concat([
    Buffer.from('II\x2a\0\x08\0\0\0', 'latin1'),
    directory([], 8, second),
    directory([], second, third),
    directory([ascii(0x013c, 'STUDIO-3')], third, 0),
  ])
}

async function webp(...chunks: readonly (readonly [string, Buffer])[]): Promise<Buffer> {
  const parts = chunks.map(([type, data]) => {
    const head = Buffer.from(`${type}\0\0\0\0`, 'latin1')
    head.writeUInt32LE(data.length, 4)
    return Buffer.concat([head, data, Buffer.alloc(data.length % 2)])
  })
  const whole = Buffer.concat([await saved('webp'), ...parts])
  whole.writeUInt32LE(whole.length - 8, 4)
  return whole
}

const text = (keyword: string, value: string) =>
  chunk('zTXt', Buffer.concat([Buffer.from(`${keyword}\0\0`, 'latin1'), deflateSync(Buffer.from(value))]))

interface Case {
  readonly format: Decodable
  readonly make: () => Promise<Buffer>
  /** What ExifTool calls it; null where it is told with another group by version. */
  readonly tag: string
}

const CASES: Readonly<Record<string, Case>> = {
  'a serial number in the main directory': {
    format: 'jpeg',
    make: () => jpeg(writeExif({ main: [ascii(0xa431, 'BODY-1')] })),
    tag: 'SerialNumber',
  },
  'the computer’s name in the thumbnail’s directory': {
    format: 'jpeg',
    make: () => jpeg(writeExif({ thumbnail: [ascii(0x013c, 'STUDIO-3')] })),
    tag: 'HostComputer',
  },
  'coordinates that the directory of Exif leads to': {
    format: 'jpeg',
    make: () => jpeg(gpsWithinExif()),
    tag: 'GPSLatitude',
  },
  'a third directory': { format: 'jpeg', make: () => jpeg(threeDirectories()), tag: 'HostComputer' },
  'XMP within Exif': {
    format: 'jpeg',
    make: () => jpeg(writeExif({ main: [bytes(700, CITY)] })),
    tag: 'City',
  },
  'IPTC-IIM within Exif': {
    format: 'jpeg',
    make: () => jpeg(writeExif({ main: [bytes(33723, writeIim([[2, 90, 'Osprey']]))] })),
    tag: 'City',
  },
  'image resources within Exif': {
    format: 'jpeg',
    make: () => jpeg(writeExif({ main: [bytes(34377, resource(0x0404, writeIim([[2, 90, 'Osprey']])))] })),
    tag: 'City',
  },
  'coordinates that a second pointer leads to': {
    format: 'jpeg',
    make: () => jpeg(twoPointers()),
    tag: 'GPSLatitude',
  },
  'coordinates in XMP of other namespaces': {
    format: 'jpeg',
    make: async () => {
      const geo = packet('<geo:lat xmlns:geo="http://www.w3.org/2003/01/geo/wgs84_pos#">55.2</geo:lat>')
      return withSegments(await plain([200, 150, 120]).jpeg().toBuffer(), [segment(0xe1, xmpSegment(geo))])
    },
    tag: 'Lat',
  },
  'a second block of Exif in a WebP': {
    format: 'webp',
    make: () => webp(['EXIF', EMPTY], ['EXIF', GPS]),
    tag: 'GPSLatitude',
  },
  'Exif that the header of a WebP does not announce': {
    format: 'webp',
    make: () => webp(['EXIF', GPS]),
    tag: 'GPSLatitude',
  },
  'XMP that the header of a WebP does not announce': {
    format: 'webp',
    make: () => webp(['XMP ', CITY]),
    tag: 'City',
  },
}

async function measured({ format, make }: Case): Promise<Metadata> {
  const content = await make()
  return measureMetadata({ content, format, widthPx: 32, heightPx: 24, orientationTag: null, pixels: null })
}

test.each(Object.entries(CASES))('%s: found, or told as what is not read', async (_, one) => {
  const { places, unreadable } = await measured(one)
  expect(places.length + unreadable.length).toBeGreaterThan(0)
})

test.skipIf(!exiftool).each(Object.entries(CASES))(
  '%s: ExifTool reads it',
  async (_, { format, make, tag }) => {
    const path = temporaryFile(`file.${format}`, await make())
    const told = await exiftool?.('-s3', `-${tag}`, path)
    expect(told?.trim()).toMatch(/./)
  },
)

// As ImageMagick writes Exif into a PNG.
test('Exif as texts of a PNG', async () => {
  const content = withChunks(await saved('png'), [text('exif:GPSLatitude', '55/1, 2/1, 1952/100')])
  const { places } = await measured({ format: 'png', make: async () => content, tag: '' })
  expect(places).toEqual([{ item: 'coordinates', where: ['PNG text exif:GPSLatitude'] }])
})

test('an Exif block of a PNG that no directory behind the header begins', async () => {
  const later = Buffer.concat([GPS.subarray(0, 8), Buffer.alloc(64), GPS.subarray(8)])
  later.writeUInt32LE(72, 4)
  const content = withChunks(await saved('png'), [chunk('prVt', later)])
  const { unreadable } = await measured({ format: 'png', make: async () => content, tag: '' })
  expect(unreadable).toEqual([{ where: 'EXIF', why: 'damaged' }])
})
