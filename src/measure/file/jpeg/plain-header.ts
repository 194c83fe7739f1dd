import { beginsWith } from '../bytes/begins-with.ts'
import { MARKER } from '../bytes/jpeg-markers.ts'
import type { JpegSegments } from '../bytes/segments.ts'
import { hasExifCode, withoutExifCode } from '../exif/code.ts'
import { type Exif, readExif } from '../exif/exif.ts'
import { ORIENTATION } from '../exif/orientation.ts'

/** What the decoder would say of the header of a JPEG that has nothing unusual. */
export interface PlainHeader {
  /** As stored. */
  readonly width: number
  readonly height: number
  /** 1 gray, 3 color. */
  readonly channels: 1 | 3
  /** EXIF orientation 1..8; null when there is none. */
  readonly orientationTag: number | null
  /** The TIFF structure of the Exif block. */
  readonly exif: Buffer | null
}

const { SOF0, SOF1, SOF2, DHT, SOI, SOS, DQT, DRI, APP0, APP15, COM } = MARKER
// Baseline, extended and progressive, all Huffman-coded.
const FRAMES: readonly number[] = [SOF0, SOF1, SOF2]

/** Longest edge that the decoder takes, px. @source JPEG_MAX_DIMENSION of the Independent JPEG Group's library. */
const MAX_EDGE = 65_500
const EXIF_CODE = 'Exif\0\0'

/**
 * Reads the header of a JPEG in which every segment up to the first scan is whole and of the ordinary kinds, so that no
 * decoder could take it otherwise: asking one takes as long as hashing the file. Null for any other, and the decoder is
 * to be asked. Never throws.
 * @source ITU-T T.81, B.2.2: 8 bits, one or three components, and four tables at most.
 */
export function readPlainHeader(jpeg: Buffer, { frame, apps }: JpegSegments): PlainHeader | null {
  if (!frame || !FRAMES.includes(frame.marker) || frame.precision !== 8) return null
  const { width, height, components } = frame
  const channels = components.length
  if (channels !== 1 && channels !== 3) return null
  if (Math.min(width, height) === 0 || Math.max(width, height) > MAX_EDGE) return null
  if (components.some(({ h, v, table }) => !isFactor(h) || !isFactor(v) || table > 3)) return null
  const ids = components.map(({ id }) => id)
  if (new Set(ids).size < channels || !isOrderly(jpeg, ids)) return null
  const blocks = apps.filter(({ n, payload, inHeader }) => inHeader && n === 1 && hasExifCode(payload))
  const [block] = blocks
  if (!block) return { width, height, channels, orientationTag: null, exif: null }
  if (blocks.length > 1 || !beginsWith(block.payload, EXIF_CODE)) return null
  const tiff = withoutExifCode(block.payload)
  const exif = readExif(tiff, true)
  const orientationTag = exif && !exif.damaged ? orientationOf(exif) : undefined
  return orientationTag === undefined ? null : { width, height, channels, orientationTag, exif: tiff }
}

/** Whether a component may be sampled so often. @source ITU-T T.81, B.2.2. */
function isFactor(factor: number): boolean {
  return factor >= 1 && factor <= 4
}

/**
 * One frame, tables of the sizes that they state, and nothing between the segments up to the first scan.
 * @source ITU-T T.81, B.1.1.4 and B.2.2.
 */
function isOrderly(jpeg: Buffer, ids: readonly number[]): boolean {
  let frames = 0
  if (jpeg.length < 4 || jpeg[0] !== 0xff || jpeg[1] !== SOI) return false
  for (let at = 2; at + 4 <= jpeg.length; ) {
    const marker = jpeg[at + 1] as number
    const length = jpeg.readUInt16BE(at + 2)
    if (jpeg[at] !== 0xff || length < 2 || at + 2 + length > jpeg.length) return false
    const payload = jpeg.subarray(at + 4, at + 2 + length)
    if (FRAMES.includes(marker)) {
      if (++frames > 1 || payload.length !== 6 + 3 * ids.length) return false
    } else if (marker === SOS) return frames === 1 && isScan(payload, ids)
    else if (!isOrdinary(marker, payload)) return false
    at += 2 + length
  }
  return false
}

function isOrdinary(marker: number, payload: Buffer): boolean {
  if (marker === DQT) return areQuantization(payload)
  if (marker === DHT) return areHuffman(payload)
  if (marker === DRI) return payload.length === 2
  return marker === COM || (marker >= APP0 && marker <= APP15)
}

/** Whether a segment holds whole quantization tables. @source ITU-T T.81, B.2.4.1. */
function areQuantization(payload: Buffer): boolean {
  let at = 0
  while (at < payload.length) {
    const head = payload[at] as number
    if (head >> 4 > 1 || (head & 15) > 3) return false
    at += head >> 4 === 0 ? 65 : 129
  }
  return at === payload.length && at > 0
}

/** Whether a segment holds whole Huffman tables. @source ITU-T T.81, B.2.4.2. */
function areHuffman(payload: Buffer): boolean {
  let at = 0
  while (at + 17 <= payload.length) {
    const head = payload[at] as number
    const codes = payload.subarray(at + 1, at + 17).reduce((sum, count) => sum + count, 0)
    if (head >> 4 > 1 || (head & 15) > 3 || codes > 256) return false
    at += 17 + codes
  }
  return at === payload.length && at > 0
}

/** Whether each component of the scan is one of the frame's, once, with tables that there can be. @source ITU-T T.81, B.2.3. */
function isScan(payload: Buffer, ids: readonly number[]): boolean {
  const count = payload[0] ?? 0
  if (count < 1 || count > ids.length || payload.length !== 4 + 2 * count) return false
  const scanned = Array.from({ length: count }, (_, n) => payload[1 + 2 * n] as number)
  const tables = Array.from({ length: count }, (_, n) => payload[2 + 2 * n] as number)
  const areKnown = scanned.every((id) => ids.includes(id)) && new Set(scanned).size === count
  return areKnown && tables.every((table) => table >> 4 <= 3 && (table & 15) <= 3)
}

/** Null when there is none; undefined when programs may read it in different ways. @source CIPA DC-008 (Exif), 4.6.4 A: 1 to 8. */
function orientationOf({ main, exif, thumbnail, gps }: Exif): number | null | undefined {
  const elsewhere = [exif, thumbnail, gps].some((directory) => directory?.tags.includes(ORIENTATION))
  if (elsewhere) return undefined
  if (!main.tags.includes(ORIENTATION)) return null
  const bytes = main.bytes(ORIENTATION)
  const [value = 0, ...more] = main.numbers(ORIENTATION) ?? []
  const isShort = bytes?.length === 2
  return isShort && more.length === 0 && value >= 1 && value <= 8 ? value : undefined
}
