import { readDirectory, type TiffDirectory } from './tiff.ts'

/** Most directories looked at. @choice a raw file has a dozen; the bound keeps one with thousands cheap, no source. */
const MOST = 1000

/** Tags that lead to further directories: those of a picture, of Exif, of GPS and of interoperability. @source TIFF Technical Note 1; CIPA DC-008 (Exif), 4.6.3. */
const POINTERS = [330, 0x8769, 0x8825, 0xa005]

/** All directories that a TIFF structure leads to, the first one first; none of what is no TIFF, or a BigTIFF. Never throws. */
export function directoriesOf(tiff: Buffer): TiffDirectory[] {
  const first = readDirectory(tiff)
  const found = first ? [first] : []
  const seen = new Set<number>()
  // What is found meanwhile has its turn too.
  for (const directory of found) {
    const places = [directory.next ?? 0, ...POINTERS.flatMap((tag) => directory.numbers(tag) ?? [])]
    for (const place of places) {
      if (place === 0 || seen.has(place) || seen.size === MOST) continue
      seen.add(place)
      const next = readDirectory(tiff, place)
      if (next) found.push(next)
    }
  }
  return found
}
