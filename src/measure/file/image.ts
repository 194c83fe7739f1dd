import { shortageOf } from '../../files/shortage.ts'
import type { Fault } from '../schema/fault.ts'
import type { Decodable } from '../schema/formats.ts'
import type { Container } from './container/container.ts'
import type { DecodedPicture } from './decoded-picture.ts'
import { decoderWords } from './decoder-words.ts'
import { examine, type ImageOptions } from './examine.ts'
import type { Header } from './header.ts'
import { STRIP_ROWS } from './jpeg/more-rows.ts'
import { peakChroma } from './peak-chroma.ts'
import { FACE_LONG_EDGE_PX, type PictureParts } from './picture-parts.ts'
import { withoutRows } from './without-rows.ts'

/** The header as far as it could be read, and the pixels or the fault. */
export interface Image extends Partial<Header> {
  readonly fault: Fault | null
  /** Null when it was not decoded. */
  readonly intact: boolean | null
  readonly peakChromaC: number | null
  /** All of its pixels; null when they were not decoded, or only in parts. */
  readonly pixels: DecodedPicture | null
  /** The picture in parts, when that was asked for; whether it is intact only they tell then. */
  readonly parts: PictureParts | null
}

/**
 * Reads the header of a picture and, when asked to, decodes it. Rejects for nothing that is in it.
 * @throws TooMuchAtOnce when decoding it would take more memory than its share
 */
export async function readImage(data: Buffer, format: Decodable, options: ImageOptions): Promise<Image> {
  const examined = await examine(data, format, options)
  if (examined.fault) return { ...examined, ...NOT_DECODED }
  const { header, container } = examined
  if (!options.decode) return { ...header, fault: null, intact: null, ...NOT_DECODED }
  try {
    const isSrgb = header.color?.space === 'rgb' && header.color.profile === 'sRGB'
    const found = { ...header, fault: null, intact: true, parts: null, pixels: null }
    if (options.inParts && format === 'jpeg') {
      const parts = await jpegInParts(data, container, header, options.limits.pixels, isSrgb)
      return { ...found, peakChromaC: peakChroma(await parts.copy(FACE_LONG_EDGE_PX)), parts }
    }
    const pixels = await decodeWhole(data, container, header, options.limits.pixels, isSrgb)
    return { ...found, peakChromaC: peakChroma(pixels), pixels }
  } catch (error) {
    return { ...header, ...faultOf(error) }
  }
}

const NOT_DECODED = { peakChromaC: null, pixels: null, parts: null }

/** What there is to say of a picture that could not be decoded to its end. @param error of the decoder */
export function faultOf(error: unknown) {
  // Whether it is whole can't be told where memory was missing.
  const fault: Fault = {
    kind: shortageOf(error) === null ? 'corrupt' : 'not-measured',
    detail: decoderWords(error),
  }
  return { fault, intact: fault.kind === 'corrupt' ? false : null, ...NOT_DECODED }
}

async function decodeWhole(
  data: Buffer,
  { withOneStripMore, lean }: Container,
  { widthPx, heightPx, orientationTag }: Header,
  maxPixels: number,
  isSrgb: boolean,
): Promise<DecodedPicture> {
  // Loaded when the first picture is decoded: headers alone do not need the library.
  const { decodePicture } = await import('./decode.ts')
  if (!withOneStripMore) return decodePicture(lean ?? data, maxPixels, isSrgb)
  const more = maxPixels + STRIP_ROWS * Math.max(widthPx, heightPx)
  const picture = await decodePicture(withOneStripMore(), more, isSrgb)
  return withoutRows(picture, STRIP_ROWS, orientationTag ?? 1)
}

async function jpegInParts(
  content: Buffer,
  { withOneStripMore }: Container,
  { widthPx: width, heightPx: height, orientationTag }: Header,
  maxPixels: number,
  isSrgb: boolean,
): Promise<PictureParts> {
  const { partsOfJpeg } = await import('./jpeg-parts.ts')
  const orientation = orientationTag ?? 1
  const stored = { content, width, height, orientation, isSrgb, maxPixels, withOneStripMore }
  return partsOfJpeg(stored, FACE_LONG_EDGE_PX)
}
