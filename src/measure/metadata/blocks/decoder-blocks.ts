import { readBoxes } from '../../file/bytes/boxes.ts'
import { decoder } from '../../file/decoder.ts'
import type { Opaque } from '../../schema/metadata-facts.ts'
import { NO_BLOCKS, type RawBlocks, trailer } from './raw-blocks.ts'

/** Of WebP and AVIF, where the decoder's header hands the blocks over. */
export async function decoderBlocks(format: 'webp' | 'avif', content: Buffer): Promise<RawBlocks> {
  try {
    const { exif, xmp } = await decoder(content, { limitInputPixels: false }).metadata()
    return {
      ...NO_BLOCKS,
      exif: exif ? [{ where: 'EXIF', tiff: withoutCode(exif) }] : [],
      xmp: xmp ? [{ where: 'XMP', packet: xmp }] : [],
      opaque: format === 'avif' ? vendorBoxes(content) : vendorChunks(content),
    }
  } catch {
    return { ...NO_BLOCKS, unreadable: [{ where: 'the header', why: 'damaged' }] }
  }
}

function withoutCode(exif: Buffer): Buffer {
  return exif.toString('latin1', 0, 4) === 'Exif' ? exif.subarray(6) : exif
}

/** ISO/IEC 14496-12, 11.1: a box of type `uuid` holds what its maker pleases. */
function vendorBoxes(content: Buffer) {
  const bytes = readBoxes(content)
    .boxes.filter(({ type }) => type === 'uuid')
    .reduce((sum, box) => sum + box.content.length, 0)
  return bytes > 0 ? [{ where: 'AVIF box uuid', bytes }] : []
}

// RFC 9649, 2.7.
const CHUNKS = ['VP8 ', 'VP8L', 'VP8X', 'ALPH', 'ANIM', 'ANMF', 'ICCP', 'EXIF', 'XMP ']
/** Where the chunks begin, bytes. @source RFC 9649, 2.4. */
const RIFF_HEAD = 12

/** Chunks that the container's specification does not name, and what follows its end. @source RFC 9649, 2.3 and 2.4: code, size, data and padding. */
function vendorChunks(webp: Buffer): Opaque[] {
  const end = Math.min(8 + webp.readUInt32LE(4), webp.length)
  let bytes = 0
  for (let at = RIFF_HEAD; at + 8 <= end; ) {
    const size = webp.readUInt32LE(at + 4)
    if (!CHUNKS.includes(webp.toString('latin1', at, at + 4))) bytes += Math.min(size, end - at - 8)
    at += 8 + size + (size % 2)
  }
  const vendor = bytes > 0 ? [{ where: 'WebP chunks of other kinds', bytes }] : []
  return [...vendor, ...trailer(webp.subarray(end))]
}
