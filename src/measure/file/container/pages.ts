import { readDirectory, TAG, type TiffDirectory } from '../bytes/tiff.ts'

/** Bits of NewSubfileType: a reduced copy of another page, and a mask for one. @source TIFF 6.0, section 8. */
const REDUCED_OR_MASK = 1 | 4

/** Most directories looked at. @choice more pages than anyone delivers, no source; the bound keeps a chain that loops short. */
const MOST = 1000

/** The tag of further directories beside the chain. @source TIFF Technical Note 1. */
const SUB_DIRECTORIES = 330

/** Second half of the first four bytes of a BigTIFF. @source "The BigTIFF File Format", libtiff.gitlab.io. */
const BIG = 43

/** Where the header has the first directory; bytes of a directory's count and of each entry. @source "The BigTIFF File Format", libtiff.gitlab.io. */
const BIG_DIRECTORY = { first: 8, count: 8, entry: 20 } as const

/** How many pictures of their own a TIFF holds beside its first one. @throws RangeError where a BigTIFF ends early */
export function furtherPages(tiff: Buffer): number {
  const first = readDirectory(tiff)
  if (!first) return furtherBigPages(tiff)
  let pages = ownPictures(tiff, first)
  let at = first.next
  for (let n = 0; at !== null && n < MOST; n++) {
    const directory = readDirectory(tiff, at)
    if (!directory) break
    pages += (isOwn(directory) ? 1 : 0) + ownPictures(tiff, directory)
    at = directory.next
  }
  return pages
}

function isOwn(directory: TiffDirectory): boolean {
  const [subfile = 0] = directory.numbers(TAG.newSubfileType) ?? []
  return (subfile & REDUCED_OR_MASK) === 0
}

function ownPictures(tiff: Buffer, directory: TiffDirectory): number {
  const places = directory.numbers(SUB_DIRECTORIES) ?? []
  return places.slice(0, MOST).filter((place) => {
    const sub = readDirectory(tiff, place)
    return sub !== null && isOwn(sub)
  }).length
}

/** Those of a BigTIFF's chain, whatever they are. */
function furtherBigPages(tiff: Buffer): number {
  const isLittle = tiff.toString('latin1', 0, 2) === 'II'
  if ((isLittle ? tiff.readUInt16LE(2) : tiff.readUInt16BE(2)) !== BIG) return 0
  const u64 = (at: number) => Number(isLittle ? tiff.readBigUInt64LE(at) : tiff.readBigUInt64BE(at))
  let pages = 0
  for (let at = u64(BIG_DIRECTORY.first); at !== 0 && pages < MOST; pages++)
    at = u64(at + BIG_DIRECTORY.count + BIG_DIRECTORY.entry * u64(at))
  return Math.max(0, pages - 1)
}
