import type { Fault } from '../schema/fault.ts'
import type { Decodable } from '../schema/formats.ts'
import { type Container, readContainer } from './container/container.ts'
import { decodeMemory, TooMuchAtOnce } from './decode-memory.ts'
import type { DecodedPicture } from './decoded-picture.ts'
import { decoderWords } from './decoder-words.ts'
import { type Header, readHeader } from './header.ts'
import { STRIP_ROWS } from './jpeg/more-rows.ts'
import { withoutRows } from './without-rows.ts'

export interface Limits {
  /** Largest file that is read. */
  readonly bytes: number
  /** Largest picture that is decoded: width times height. */
  readonly pixels: number
  /** Most memory that decoding a picture may take beside its file, in bytes. */
  readonly memory: number
}

/** The header as far as it could be read, and the pixels or the fault. */
export interface Image extends Partial<Header> {
  readonly fault: Fault | null
  /** Null when it was not decoded. */
  readonly intact: boolean | null
  readonly pixels: DecodedPicture | null
}

/**
 * Longest edge decoded, px: a picture of few, endless rows takes many times the memory of its pixels, for the decoder holds several
 * rows at a time.
 * @source ITU-T T.81, B.2.2: JPEG can state no more.
 */
const MAX_EDGE = 65_535

export interface ImageOptions {
  readonly decode: boolean
  readonly limits: Pick<Limits, 'pixels' | 'memory'>
  /** Memory that decoding may take just now, in bytes; as much as the limits allow by default. */
  readonly share?: number
}

/**
 * Reads the header of a picture and, when asked to, decodes it. Rejects for nothing that is in it.
 * @throws TooMuchAtOnce when decoding it would take more memory than its share
 */
export async function readImage(
  data: Buffer,
  format: Decodable,
  { decode, limits, share = Infinity }: ImageOptions,
): Promise<Image> {
  const container = readContainer(format, data)
  const broken = (detail: string): Image => ({
    fault: { kind: container.endsEarly ? 'truncated' : 'corrupt', detail },
    intact: false,
    pixels: null,
  })

  // The decoder keeps what a header holds: a file with millions of parts does not reach it.
  if (container.excess !== null) return tooLarge(container.excess)
  let header: Header
  try {
    header = await readHeader(data, container)
  } catch (error) {
    return broken(decoderWords(error))
  }
  const { widthPx, heightPx } = header
  if (widthPx * heightPx > limits.pixels)
    return { ...header, ...tooLarge(`${widthPx} x ${heightPx} px; the limit is ${limits.pixels} pixels`) }
  if (Math.max(widthPx, heightPx) > MAX_EDGE)
    return { ...header, ...tooLarge(`${widthPx} x ${heightPx} px; the limit of one edge is ${MAX_EDGE}`) }
  if (container.endsEarly) return { ...header, ...broken('') }
  if (container.damage !== null) return { ...header, ...broken(container.damage) }
  if (!decode) return { ...header, fault: null, intact: null, pixels: null }
  const needed = decodeMemory(format, header, container)
  if (needed > limits.memory)
    return {
      ...header,
      ...tooLarge(
        `${widthPx} x ${heightPx} px of this kind take ${inMiB(needed)} to decode; the limit is ${inMiB(limits.memory)}`,
      ),
    }
  if (needed > share) throw new TooMuchAtOnce(needed)

  try {
    const isSrgb = header.color?.space === 'rgb' && header.color.profile === 'sRGB'
    const pixels = await decodeWhole(data, container, header, limits.pixels, isSrgb)
    return { ...header, fault: null, intact: true, pixels }
  } catch (error) {
    return { ...header, ...broken(decoderWords(error)) }
  }
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

function inMiB(bytes: number): string {
  return `${Math.round(bytes / 1024 ** 2)} MiB`
}

function tooLarge(detail: string): Image {
  return { fault: { kind: 'too-large', detail }, intact: null, pixels: null }
}
