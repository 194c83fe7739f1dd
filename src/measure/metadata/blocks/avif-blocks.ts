import { findBoxes, readBoxes } from '../../file/bytes/boxes.ts'
import { hasThumbnail } from '../../file/container/image-items.ts'
import { decoder } from '../../file/decoder.ts'
import { withoutExifCode } from '../../file/exif/code.ts'
import type { Opaque } from '../../schema/metadata-facts.ts'
import { NO_BLOCKS, type RawBlocks, trailer } from './raw-blocks.ts'

/** The blocks are where the decoder's header hands them over. */
export async function avifBlocks(content: Buffer): Promise<RawBlocks> {
  try {
    const { exif, xmp } = await decoder(content, { limitInputPixels: false }).metadata()
    return {
      ...NO_BLOCKS,
      exif: exif ? [{ where: 'EXIF', tiff: withoutExifCode(exif) }] : [],
      xmp: xmp ? [{ where: 'XMP', packet: xmp }] : [],
      previews: hasThumbnail(content) ? [{ where: 'AVIF thumbnail', picture: null }] : [],
      opaque: [...otherBoxes(content), ...trailer(content.subarray(readBoxes(content).end))],
    }
  } catch {
    return { ...NO_BLOCKS, unreadable: [{ where: 'the header', why: 'damaged' }] }
  }
}

/**
 * Boxes that hold what shows the picture, and films, which are told elsewhere; of a description, those of its items.
 * @source ISO/IEC 14496-12, 8.11; AV1 Image File Format, 2.
 */
const KNOWN = {
  file: ['ftyp', 'meta', 'mdat', 'moov'],
  description: ['hdlr', 'pitm', 'iinf', 'iloc', 'iprp', 'iref', 'idat', 'dinf', 'grpl'],
}

/** What its maker pleases (`uuid`: ISO/IEC 14496-12, 11.1), and room that is free (8.1.2), unless it is blank. */
function otherBoxes(content: Buffer): Opaque[] {
  const described = findBoxes(content, ['meta']).flatMap((meta) => readBoxes(meta).boxes)
  const others = [
    ...readBoxes(content).boxes.filter(({ type }) => !KNOWN.file.includes(type)),
    ...described.filter(({ type }) => !KNOWN.description.includes(type)),
  ]
  const bytes = others
    .filter((box) => box.content.some((byte) => byte !== 0))
    .reduce((sum, box) => sum + box.content.length, 0)
  return bytes > 0 ? [{ where: 'AVIF boxes of other kinds', bytes }] : []
}
