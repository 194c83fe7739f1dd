import type { Size } from '../../framing/ask.ts'
import type { Blocks } from './blocks.ts'

/** Flags of the extended header. @source RFC 9649, 2.7. */
const FLAGS = 0x20 | 0x08 | 0x04

/** The WebP with these blocks; its picture stays as it is. @source RFC 9649, 2.5 to 2.7: the order of the chunks. */
export function webpWith(webp: Buffer, { icc, exif, xmp }: Blocks, { widthPx, heightPx }: Size): Buffer {
  const header = Buffer.alloc(10)
  header[0] = FLAGS
  header.writeUIntLE(widthPx - 1, 4, 3)
  header.writeUIntLE(heightPx - 1, 7, 3)
  const body = Buffer.concat([
    Buffer.from('WEBP', 'latin1'),
    chunk('VP8X', header),
    chunk('ICCP', icc),
    pictureChunk(webp),
    chunk('EXIF', exif),
    chunk('XMP ', xmp),
  ])
  const head = Buffer.from('RIFF\0\0\0\0', 'latin1')
  head.writeUInt32LE(body.length, 4)
  return Buffer.concat([head, body])
}

/** The chunk with the picture, which the library writes without transparency. */
function pictureChunk(webp: Buffer): Buffer {
  for (let at = 12; at + 8 <= webp.length; ) {
    const size = webp.readUInt32LE(at + 4)
    const end = at + 8 + size + (size % 2)
    if (['VP8 ', 'VP8L'].includes(webp.toString('latin1', at, at + 4))) return webp.subarray(at, end)
    at = end
  }
  throw new Error('The encoder gave a WebP without a picture.')
}

function chunk(type: string, data: Buffer): Buffer {
  const head = Buffer.from(`${type}\0\0\0\0`, 'latin1')
  head.writeUInt32LE(data.length, 4)
  return Buffer.concat([head, data, Buffer.alloc(data.length % 2)])
}
