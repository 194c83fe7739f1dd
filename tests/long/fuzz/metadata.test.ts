import { Ajv } from 'ajv'
import { describe, expect, test } from 'vitest'
import { measureMetadata } from '../../../src/measure/metadata/metadata.ts'
import type { Decodable } from '../../../src/measure/schema/formats.ts'
import { Metadata } from '../../../src/measure/schema/metadata.ts'
import { segment, withSegments } from '../../measure/file/bytes/jpeg-writer.ts'
import { ascii, exifSegment, rational, writeExif } from '../../measure/file/exif/exif-writer.ts'
import { resource, resourceSegment, writeIim } from '../../measure/metadata/formats/iim-writer.ts'
import { bag, packet, seq, xmpSegment } from '../../measure/metadata/formats/xmp-writer.ts'
import { decoded } from '../../measure/metadata/preview/pictures.ts'
import { plain } from '../../measure/samples.ts'
import { seeded } from '../../random.ts'

const fits = new Ajv({ strict: true, allowUnionTypes: true }).compile(Metadata)

describe('spoiled files', () => {
  /** All blocks at once, in a picture of each format that carries them. */
  async function loaded(format: Decodable): Promise<Buffer> {
    const xmp = packet(seq('dc:creator', 'Mika Thorne') + bag('dc:subject', 'staff'))
    const preview = await plain([1, 2, 3], 40, 50).jpeg().toBuffer()
    if (format !== 'jpeg')
      return plain([200, 150, 120], 40, 50)
        .withExif({ IFD0: { Artist: 'Mika' }, IFD3: { GPSLatitude: '55/1 2/1 19/1' } })
        .withXmp(xmp.toString())
        .toFormat(format)
        .toBuffer()
    return withSegments(await plain([200, 150, 120], 40, 50).jpeg().toBuffer(), [
      segment(
        0xe1,
        exifSegment(
          writeExif({ main: [ascii(0x013b, 'Mika')], gps: [rational(2, 55, 1, 2, 1, 19, 1)], preview }),
        ),
      ),
      segment(0xe1, xmpSegment(xmp)),
      segment(
        0xed,
        resourceSegment(resource(0x0404, writeIim([[2, 80, 'Mika']])), resource(0x040c, preview)),
      ),
    ])
  }

  test.each(['jpeg', 'png', 'tiff', 'webp', 'avif'] as const)(
    '%s: whatever byte is wrong, it is read or told',
    async (format) => {
      const content = await loaded(format)
      const random = seeded(content.length)
      const pixels = await decoded(plain([200, 150, 120], 40, 50))
      const size = { widthPx: 40, heightPx: 50, orientationTag: 1 }
      for (let round = 0; round < 300; round++) {
        const spoiled = Buffer.from(content)
        // Metadata stand in the first few kilobytes.
        for (let n = 0; n < 1 + (round % 5); n++) {
          spoiled[Math.floor(random() * Math.min(spoiled.length, 4000))] = Math.floor(256 * random())
        }
        const cut = round % 10 === 0 ? Math.floor(random() * spoiled.length) : spoiled.length
        const found = await measureMetadata({ content: spoiled.subarray(0, cut), format, ...size, pixels })
        expect(fits(found), JSON.stringify(fits.errors)).toBe(true)
      }
    },
  )
})
