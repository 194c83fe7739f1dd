import { MARKER } from '../bytes/jpeg-markers.ts'
import { type Frame, readSegments } from '../bytes/segments.ts'
import { TAG, type TiffDirectory } from '../bytes/tiff.ts'
import { directoriesOf } from '../bytes/tiff-directories.ts'

/** A picture that a raw file holds ready to show. */
export interface EmbeddedJpeg {
  readonly jpeg: Buffer
  /** As stored. */
  readonly widthPx: number
  readonly heightPx: number
}

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
