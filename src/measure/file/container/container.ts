import type { Decodable } from '../../schema/formats.ts'
import type { Jpeg, Profile } from '../../schema/measurements.ts'
import type { Other } from '../../schema/others.ts'
import { isAvifCut, MAX_BOXES, readBoxes } from '../bytes/boxes.ts'
import { MAX_CHUNKS, readPng, withoutTexts } from '../bytes/png.ts'
import { MAX_RIFF_CHUNKS, readRiff } from '../bytes/riff.ts'
import { type JpegSegments, MAX_SEGMENTS, readSegments } from '../bytes/segments.ts'
import { isCutShort, readDirectory } from '../bytes/tiff.ts'
import { hasExifCode, withoutExifCode } from '../exif/code.ts'
import { DISAGREEMENT, orientationsDisagree } from '../exif/orientation.ts'
import { jpegFacts } from '../jpeg/facts.ts'
import { iccOf } from '../jpeg/icc-chunks.ts'
import { isLastStripUnwatched, withOneStripMore } from '../jpeg/more-rows.ts'
import { statedByAvif, statedByPng } from './code-points.ts'
import { iccOfPng } from './iccp.ts'
import { othersIn } from './others.ts'
import { jfifPpi, pngPpi, tiffPpi } from './resolution.ts'

/** What the wrapping of a picture says, before anything is decoded. */
export interface Container {
  /** The file stops before its last part: it was cut short. */
  readonly endsEarly: boolean
  /** What makes it too costly to decode, whatever its size; null when nothing does. */
  readonly excess: string | null
  /** What is damaged in it for certain although a decoder would not mind; null when nothing is. */
  readonly damage: string | null
  /** Gives the picture with a strip of rows more, where the decoder would not notice damage in the last one. */
  readonly withOneStripMore: (() => Buffer) | null
  /** The picture without parts that cost the decoder more than they are worth; null when there are none. */
  readonly lean: Buffer | null
  /** Resolution as the container itself states it, beside what Exif may say. */
  readonly ppi: number | null
  /** The color space that it states without an ICC profile. */
  readonly statedSpace: Profile | null
  /** The ICC profile where the container is read for it here (JPEG, PNG); undefined: the decoder's header has it. */
  readonly icc: Buffer | 'broken' | null | undefined
  readonly jpeg: Jpeg | null
  /** What the file holds beside the picture. */
  readonly others: Other[]
  /** Of a JPEG, its segments. */
  readonly segments: JpegSegments | null
  /** Whether a PNG is interlaced. */
  readonly interlaced: boolean
  /** Bits of one sample, where the decoder's header does not tell. */
  readonly bitsPerChannel: number | null
}

/**
 * Most scans of a JPEG that is decoded: each is a pass over the whole picture, so a small file can ask for hours.
 * @source the scan scripts of the Independent JPEG Group's cjpeg hold at most 100; encoders write about ten.
 */
const MAX_SCANS = 100

/** Where the header of a PNG has its interlace method, from its data on. @source PNG, third edition, 11.2.1. */
const INTERLACE = 12

const SILENT: Omit<Container, 'others'> = {
  endsEarly: false,
  excess: null,
  damage: null,
  withOneStripMore: null,
  lean: null,
  ppi: null,
  statedSpace: null,
  icc: undefined,
  jpeg: null,
  segments: null,
  interlaced: false,
  bitsPerChannel: null,
}

const READERS: Readonly<Record<Decodable, (content: Buffer) => Omit<Container, 'others'>>> = {
  jpeg(content) {
    const segments = readSegments(content)
    const { frame } = segments
    const blocks = segments.apps.filter(({ n, payload }) => n === 1 && hasExifCode(payload))
    return {
      ...SILENT,
      endsEarly: !segments.ended,
      damage: segments.nested
        ? 'another picture begins before the end of this one'
        : disagreementOf(blocks.map(({ payload }) => withoutExifCode(payload))),
      excess:
        beyond(segments.scans, MAX_SCANS, 'scans') ?? beyond(segments.segments, MAX_SEGMENTS, 'segments'),
      withOneStripMore:
        frame && isLastStripUnwatched(frame, segments.scans) ? () => withOneStripMore(content, frame) : null,
      ppi: jfifPpi(segments),
      icc: iccOf(segments),
      jpeg: jpegFacts(segments),
      segments,
      bitsPerChannel: frame?.precision ?? null,
    }
  },
  png(content) {
    const png = readPng(content)
    const { chunks, late, ended, count, damage } = png
    return {
      ...SILENT,
      endsEarly: !ended,
      excess: beyond(count, MAX_CHUNKS, "chunks beside the picture's data"),
      damage:
        damage ??
        disagreementOf([...chunks, ...late].flatMap(({ type, data }) => (type === 'eXIf' ? data : []))),
      lean: ended && damage === null && count <= MAX_CHUNKS ? withoutTexts(content, png) : null,
      ppi: pngPpi(chunks),
      icc: iccOfPng(chunks),
      statedSpace: statedByPng(chunks),
      interlaced: (chunks[0]?.data[INTERLACE] ?? 0) !== 0,
    }
  },
  tiff(content) {
    const directory = readDirectory(content)
    return {
      ...SILENT,
      endsEarly: isCutShort(content),
      damage: directory && disagreementOf([content]),
      ppi: directory && tiffPpi(directory),
    }
  },
  webp(content) {
    const { chunks, count, end } = readRiff(content)
    const blocks = chunks.flatMap(({ type, data }) => (type === 'EXIF' ? withoutExifCode(data) : []))
    // Readers differ in whether they look for a block that the header does not announce.
    const isAnnounced = ((chunks.find(({ type }) => type === 'VP8X')?.data[0] ?? 0) & EXIF_FLAG) !== 0
    return {
      ...SILENT,
      endsEarly: end > content.length,
      excess: beyond(count, MAX_RIFF_CHUNKS, 'chunks'),
      damage: disagreementOf(isAnnounced ? blocks : [NO_EXIF, ...blocks]),
      bitsPerChannel: WEBP_BITS,
    }
  },
  avif(content) {
    const { boxes } = readBoxes(content)
    const descriptions = boxes.filter(({ type }) => type === 'meta').length
    return {
      ...SILENT,
      endsEarly: isAvifCut(content),
      // So many are read, and no more.
      excess: boxes.length < MAX_BOXES ? null : `${MAX_BOXES} boxes or more; the limit is ${MAX_BOXES - 1}`,
      // A file has one at most (ISO/IEC 14496-12, 8.11.1); of several each reader takes another.
      damage: descriptions > 1 ? `${descriptions} descriptions (meta boxes) in place of one` : null,
      statedSpace: statedByAvif(content),
    }
  },
}

/** Flag of a WebP's header for metadata in Exif. @source RFC 9649, 2.7.1. */
const EXIF_FLAG = 0x08

/** A TIFF structure with nothing in it. @source TIFF 6.0, section 2: a directory of no entries, and none after it. */
const NO_EXIF = Buffer.from('II\x2a\0\x08\0\0\0\0\0\0\0\0\0', 'latin1')

function disagreementOf(blocks: readonly Buffer[]): string | null {
  return orientationsDisagree(blocks) ? DISAGREEMENT : null
}

/** Bits of a WebP's channels. @source RFC 9649, 2.5 and 2.6: the format has no other depth. */
const WEBP_BITS = 8

function beyond(count: number, limit: number, what: string): string | null {
  return count > limit ? `${count} ${what}; the limit is ${limit}` : null
}

/** Never throws, whatever the content. */
export function readContainer(format: Decodable, content: Buffer): Container {
  return { ...READERS[format](content), others: othersIn(format, content) }
}
