import { MARKER } from '../bytes/jpeg-markers.ts'
import { type Frame, readSegments } from '../bytes/segments.ts'
import { readDirectory, TAG, type TiffDirectory } from '../bytes/tiff.ts'

/** A picture that a raw file holds ready to show. */
export interface EmbeddedJpeg {
  readonly jpeg: Buffer
  /** As stored. */
  readonly widthPx: number
  readonly heightPx: number
}

/** Most directories looked at. @choice a raw file has a dozen; the bound keeps a hostile one cheap, no source. */
const MOST = 100

/** Tags that lead to further directories: further pictures, and Exif. @source TIFF Technical Note 1; CIPA DC-008 (Exif), 4.6.3. */
const POINTERS = [330, 0x8769]

/** Where a JPEG begins and how long it is. @source TIFF 6.0, section 22; CIPA DC-008 (Exif), table 20. */
const WHOLE = { offset: 513, length: 514 } as const

/** What a picture's data are coded by. @source TIFF 6.0, section 3 (Compression); 7: TIFF Technical Note 2. */
const COMPRESSION = { tag: 259, jpegs: [6, 7] } as const

/** Bits of a sample in pictures that are made to be shown. @source ITU-T T.81, B.2.2: 8, where the sensor's own have up to 16. */
const SHOWN_BITS = 8

// Lossless ones (SOF3) hold the sensor's own values.
const SHOWN: readonly number[] = [MARKER.SOF0, MARKER.SOF1, MARKER.SOF2]

/**
 * The JPEG with the most pixels that a camera's raw file embeds, of those built on TIFF (TIFF/EP, ISO 12234-2; DNG and most
 * cameras' own formats). Null when it is no such file, or embeds none that is whole. Never throws.
 */
export function embeddedJpeg(raw: Buffer): EmbeddedJpeg | null {
  const found = directoriesOf(raw).flatMap((directory) => picturesOf(raw, directory))
  const [largest] = found.toSorted((a, b) => b.widthPx * b.heightPx - a.widthPx * a.heightPx)
  return largest ?? null
}

/** All directories that a TIFF structure leads to, the first one first. */
export function directoriesOf(tiff: Buffer): TiffDirectory[] {
  const first = readDirectory(tiff)
  const found: TiffDirectory[] = []
  const waiting = first ? [first] : []
  const seen = new Set<number>()
  for (let directory = waiting.shift(); directory; directory = waiting.shift()) {
    found.push(directory)
    const places = [directory.next ?? 0, ...POINTERS.flatMap((tag) => directory?.numbers(tag) ?? [])]
    for (const place of places) {
      if (place === 0 || seen.has(place) || seen.size === MOST) continue
      seen.add(place)
      const next = readDirectory(tiff, place)
      if (next) waiting.push(next)
    }
  }
  return found
}

function picturesOf(raw: Buffer, directory: TiffDirectory): EmbeddedJpeg[] {
  const parts = [stretch(directory, WHOLE.offset, WHOLE.length)]
  const [compression = 0] = directory.numbers(COMPRESSION.tag) ?? []
  if (COMPRESSION.jpegs.some((jpeg) => jpeg === compression))
    parts.push(stretch(directory, TAG.stripOffsets, TAG.stripByteCounts))
  return parts.flatMap((part) => {
    if (!part || part.from + part.length > raw.length) return []
    const jpeg = raw.subarray(part.from, part.from + part.length)
    const frame = shownFrame(jpeg)
    return frame ? [{ jpeg, widthPx: frame.width, heightPx: frame.height }] : []
  })
}

/** A single stretch of the file; null when the directory names none. */
function stretch(directory: TiffDirectory, offset: number, length: number) {
  const [from, ...more] = directory.numbers(offset) ?? []
  const [bytes = 0] = directory.numbers(length) ?? []
  return from === undefined || more.length > 0 || bytes === 0 ? null : { from, length: bytes }
}

function shownFrame(jpeg: Buffer): Frame | null {
  if (jpeg[0] !== 0xff || jpeg[1] !== MARKER.SOI) return null
  const { frame } = readSegments(jpeg)
  return frame && SHOWN.includes(frame.marker) && frame.precision === SHOWN_BITS ? frame : null
}
