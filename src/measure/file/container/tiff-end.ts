import { TAG, type TiffDirectory } from '../bytes/tiff.ts'
import { directoriesOf } from '../bytes/tiff-directories.ts'

/** Tags of places and lengths of data, in pairs: strips, tiles, and a JPEG. @source TIFF 6.0, sections 8, 15 and 22. */
const DATA = [
  [TAG.stripOffsets, TAG.stripByteCounts],
  [TAG.tileOffsets, TAG.tileByteCounts],
  [513, 514],
] as const

/**
 * Where the last byte ends that a directory of a TIFF leads to: what follows belongs to nobody who reads it. The end of the
 * file where that can't be told: a BigTIFF, or data whose length is not stated. Never throws.
 */
export function endOfTiff(tiff: Buffer): number {
  const directories = directoriesOf(tiff)
  if (directories.length === 0) return tiff.length
  return Math.max(...directories.map((directory) => Math.max(directory.end, endOfData(tiff, directory))))
}

function endOfData(tiff: Buffer, directory: TiffDirectory): number {
  const ends = DATA.map(([place, length]) => {
    const places = directory.numbers(place) ?? []
    const lengths = directory.numbers(length)
    if (places.length > 0 && lengths?.length !== places.length) return tiff.length
    return places.reduce((end, at, n) => Math.max(end, at + (lengths?.[n] ?? 0)), 0)
  })
  return Math.min(tiff.length, Math.max(...ends))
}
