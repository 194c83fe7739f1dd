import { readDirectory, TAG, type TiffDirectory } from '../../file/bytes/tiff.ts'
import type { Opaque } from '../../schema/metadata-facts.ts'
import { TAG_MARKER } from '../formats/iim.ts'
import { NO_BLOCKS, type RawBlocks, type StoredPreview } from './raw-blocks.ts'

/**
 * Tags of a directory that hold a block each.
 * @source XMP: ISO 16684-3, TIFF. IIM and image resources: Adobe PageMaker 6.0 TIFF Technical Notes. Layers: Adobe Photoshop TIFF
 * Technical Notes (2002).
 */
const BLOCK_TAG = { xmp: 700, iim: 33723, resources: 34377, layers: 37724 } as const

/** The blocks that a directory holds: the first one of a TIFF file, and, though no standard has it, that of Exif in other files. */
export function directoryBlocks(directory: TiffDirectory): Pick<RawBlocks, 'xmp' | 'iim' | 'resources'> {
  const packet = directory.bytes(BLOCK_TAG.xmp)
  const iim = directory.bytes(BLOCK_TAG.iim)
  return {
    xmp: packet ? [{ where: 'XMP', packet }] : [],
    iim: iim && inByteOrder(iim),
    resources: directory.bytes(BLOCK_TAG.resources),
  }
}

/** Of the first page; its directory is the main directory of Exif at the same time. */
export function tiffBlocks(tiff: Buffer): RawBlocks {
  const directory = readDirectory(tiff)
  // A BigTIFF: of more than 4 GB, or written as such for no reason.
  if (!directory) return { ...NO_BLOCKS, unreadable: [{ where: 'BigTIFF', why: 'unsupported' }] }
  const layers = directory.bytes(BLOCK_TAG.layers)
  return {
    ...NO_BLOCKS,
    ...directoryBlocks(directory),
    exif: [{ where: 'EXIF', tiff, isFile: true }],
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
  return second && isReduced(second) ? [{ where: 'TIFF thumbnail', picture: tiff, page: 1 }] : []
}

/** Pages whose metadata are not read: a reduced copy has none of its own. */
function furtherPages(tiff: Buffer, directory: TiffDirectory): Opaque[] {
  if (directory.next === null) return []
  const second = readDirectory(tiff, directory.next)
  const isCopy = second !== null && isReduced(second) && second.next === null && !hasBlocks(second)
  return isCopy ? [] : [{ where: 'further pages of the TIFF', bytes: null }]
}

/** Pointers to the directories of Exif and GPS. @source CIPA DC-008 (Exif), 4.6.3. */
const POINTERS = [0x8769, 0x8825]

function hasBlocks({ tags }: TiffDirectory): boolean {
  const kept: readonly number[] = [...Object.values(BLOCK_TAG), ...POINTERS]
  return tags.some((tag) => kept.includes(tag))
}

function isReduced(directory: TiffDirectory): boolean {
  const [subfile = 0] = directory.numbers(TAG.newSubfileType) ?? []
  return (subfile & 1) === 1
}
