import { readDirectory, TAG, type TiffDirectory } from '../../file/bytes/tiff.ts'
import type { Opaque } from '../../schema/metadata-facts.ts'
import { TAG_MARKER } from '../formats/iim.ts'
import { NO_BLOCKS, type RawBlocks, type StoredPreview } from './raw-blocks.ts'

/**
 * Tags of a TIFF file that hold a block each, and the tag of further directories.
 * @source XMP: ISO 16684-3, TIFF. IIM and image resources: Adobe PageMaker 6.0 TIFF Technical Notes. Layers: Adobe Photoshop TIFF
 * Technical Notes (2002). Sub-directories: TIFF Technical Note 1.
 */
const BLOCK_TAG = { xmp: 700, iim: 33723, resources: 34377, layers: 37724, subDirectories: 330 } as const

/** Of the first page; its directory is the main directory of Exif at the same time. */
export function tiffBlocks(tiff: Buffer): RawBlocks {
  const directory = readDirectory(tiff)
  // A BigTIFF: of more than 4 GB, or written as such for no reason.
  if (!directory) return { ...NO_BLOCKS, unreadable: [{ where: 'BigTIFF', why: 'unsupported' }] }
  const packet = directory.bytes(BLOCK_TAG.xmp)
  const layers = directory.bytes(BLOCK_TAG.layers)
  const iim = directory.bytes(BLOCK_TAG.iim)
  return {
    ...NO_BLOCKS,
    exif: [{ where: 'EXIF', tiff, isFile: true }],
    xmp: packet ? [{ where: 'XMP', packet }] : [],
    iim: iim && inByteOrder(iim),
    resources: directory.bytes(BLOCK_TAG.resources),
    previews: previews(tiff, directory),
    opaque: [
      ...(layers ? [{ where: `layers (TIFF tag ${BLOCK_TAG.layers})`, bytes: layers.length }] : []),
      ...furtherPages(tiff, directory),
    ],
  }
}

/**
 * Programs that take the block for 32-bit numbers turn it over when they write it in the other byte order.
 * @source TIFF 6.0, section 2: a LONG has four bytes.
 */
function inByteOrder(iim: Buffer): Buffer {
  const isTurned = iim[0] !== TAG_MARKER && iim[3] === TAG_MARKER && iim.length % 4 === 0
  return isTurned ? Buffer.from(iim).swap32() : iim
}

/** The second directory, where it is a reduced copy of the first picture (TIFF 6.0, NewSubfileType bit 0). */
function previews(tiff: Buffer, directory: TiffDirectory): StoredPreview[] {
  const second = directory.next === null ? null : readDirectory(tiff, directory.next)
  const page = second && isReduced(second) ? [{ where: 'TIFF thumbnail', picture: tiff, page: 1 }] : []
  const others = directory.tags.includes(BLOCK_TAG.subDirectories)
  return [...page, ...(others ? [{ where: `TIFF tag ${BLOCK_TAG.subDirectories}`, picture: null }] : [])]
}

function furtherPages(tiff: Buffer, directory: TiffDirectory): Opaque[] {
  const second = directory.next === null ? null : readDirectory(tiff, directory.next)
  const last = directory.next === null || (second !== null && isReduced(second) && second.next === null)
  return last ? [] : [{ where: 'further pages of the TIFF', bytes: null }]
}

function isReduced(directory: TiffDirectory): boolean {
  const [subfile = 0] = directory.numbers(TAG.newSubfileType) ?? []
  return (subfile & 1) === 1
}
