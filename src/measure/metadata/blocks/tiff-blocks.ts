import { readDirectory, TAG, type TiffDirectory } from '../../file/bytes/tiff.ts'
import type { Opaque } from '../../schema/metadata-facts.ts'
import { NO_BLOCKS, type RawBlocks, type StoredPreview } from './raw-blocks.ts'

// Tags of a TIFF file that hold a block each. XMP: ISO 16684-3, TIFF; IIM and image resources: Adobe PageMaker 6.0 TIFF
// Technical Notes; layers: Adobe Photoshop TIFF Technical Notes (2002).
const XMP = 700
const IIM = 33723
const RESOURCES = 34377
const LAYERS = 37724
/** Further directories below this one. TIFF Technical Note 1. */
const SUB_DIRECTORIES = 330

const FIRST_OF_DATASET = 0x1c

/** Of the first page; its directory is the main directory of Exif at the same time. */
export function tiffBlocks(tiff: Buffer): RawBlocks {
  const directory = readDirectory(tiff)
  // A BigTIFF: of more than 4 GB, or written as such for no reason.
  if (!directory) return { ...NO_BLOCKS, unreadable: [{ where: 'BigTIFF', why: 'unsupported' }] }
  const packet = directory.bytes(XMP)
  const layers = directory.bytes(LAYERS)
  const iim = directory.bytes(IIM)
  return {
    ...NO_BLOCKS,
    exif: [{ where: 'EXIF', tiff, isFile: true }],
    xmp: packet ? [{ where: 'XMP', packet }] : [],
    iim: iim && inByteOrder(iim),
    resources: directory.bytes(RESOURCES),
    previews: previews(tiff, directory),
    opaque: [
      ...(layers ? [{ where: `layers (TIFF tag ${LAYERS})`, bytes: layers.length }] : []),
      ...furtherPages(tiff, directory),
    ],
  }
}

/** Programs that take the block for 32-bit numbers turn it over when they write it in the other byte order. */
function inByteOrder(iim: Buffer): Buffer {
  const isTurned = iim[0] !== FIRST_OF_DATASET && iim[3] === FIRST_OF_DATASET && iim.length % 4 === 0
  return isTurned ? Buffer.from(iim).swap32() : iim
}

/** The second directory, where it is a reduced copy of the first picture (TIFF 6.0, NewSubfileType bit 0). */
function previews(tiff: Buffer, directory: TiffDirectory): StoredPreview[] {
  const second = directory.next === null ? null : readDirectory(tiff, directory.next)
  const page = second && isReduced(second) ? [{ where: 'TIFF thumbnail', picture: tiff, page: 1 }] : []
  const others = directory.tags.includes(SUB_DIRECTORIES)
  return [...page, ...(others ? [{ where: `TIFF tag ${SUB_DIRECTORIES}`, picture: null }] : [])]
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
