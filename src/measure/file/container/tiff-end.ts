import { readDirectory, TAG, type TiffDirectory } from '../bytes/tiff.ts'

/** Most directories looked at. @choice a file has a handful; the bound keeps one with thousands cheap, no source. */
const MOST = 1000

/** Tags that lead to further directories: those of a picture, of Exif, of GPS and of interoperability. @source TIFF Technical Note 1; CIPA DC-008 (Exif), 4.6.3. */
const POINTERS = [330, 0x8769, 0x8825, 0xa005]

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
  const first = readDirectory(tiff)
  if (!first) return tiff.length
  const waiting: TiffDirectory[] = [first]
  const seen = new Set<number>()
  let end = 0
  for (let directory = waiting.pop(); directory; directory = waiting.pop()) {
    end = Math.max(end, directory.end, endOfData(tiff, directory))
    const places = [directory.next ?? 0, ...POINTERS.flatMap((tag) => directory?.numbers(tag) ?? [])]
    for (const place of places) {
      if (place === 0 || seen.has(place) || seen.size === MOST) continue
      seen.add(place)
      const next = readDirectory(tiff, place)
      if (next) waiting.push(next)
    }
  }
  return end
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
