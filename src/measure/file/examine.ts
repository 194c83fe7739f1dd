import type { Fault } from '../schema/fault.ts'
import type { Decodable } from '../schema/formats.ts'
import { type Container, readContainer } from './container/container.ts'
import { decodeMemory, TooMuchAtOnce } from './decode-memory.ts'
import { decoderWords } from './decoder-words.ts'
import { type Header, readHeader } from './header.ts'

export interface Limits {
  /** Largest file that is read. */
  readonly bytes: number
  /** Largest picture that is decoded: width times height. */
  readonly pixels: number
  /** Most memory that decoding a picture may take beside its file, in bytes. */
  readonly memory: number
}

/**
 * Longest edge decoded, px: a picture of few, endless rows takes many times the memory of its pixels, for the decoder holds several
 * rows at a time.
 * @source ITU-T T.81, B.2.2: JPEG can state no more.
 */
const MAX_EDGE = 65_535

export interface ImageOptions {
  readonly decode: boolean
  /** Whether a JPEG is looked at in parts, without all of its pixels. */
  readonly inParts?: boolean
  readonly limits: Pick<Limits, 'pixels' | 'memory'>
  /** Memory that decoding may take just now, in bytes; as much as the limits allow by default. */
  readonly share?: number
}

/** Why a picture is not decoded, and its header as far as it could be read. */
export interface Unfit extends Partial<Header> {
  readonly fault: Fault
  /** False when it is known to be damaged, null when nobody looked. */
  readonly intact: false | null
}

/** A picture that keeps within the limits. */
export interface Fit {
  readonly fault: null
  readonly header: Header
  readonly container: Container
}

/**
 * Reads the header of a picture and tells whether it may be decoded: nothing reaches the decoder that was not looked at so.
 * Rejects for nothing that is in it.
 * @throws TooMuchAtOnce when it is to be decoded, and that would take more memory than its share
 */
export async function examine(
  data: Buffer,
  format: Decodable,
  { decode, limits, share = Infinity }: ImageOptions,
): Promise<Fit | Unfit> {
  const container = readContainer(format, data)
  const broken = (detail: string): Unfit => ({
    fault: { kind: container.endsEarly ? 'truncated' : 'corrupt', detail },
    intact: false,
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
  if (!decode) return { fault: null, header, container }
  const needed = decodeMemory(format, header, container)
  if (needed > limits.memory)
    return {
      ...header,
      ...tooLarge(
        `${widthPx} x ${heightPx} px of this kind take ${inMiB(needed)} to decode; the limit is ${inMiB(limits.memory)}`,
      ),
    }
  if (needed > share) throw new TooMuchAtOnce(needed)
  return { fault: null, header, container }
}

function inMiB(bytes: number): string {
  return `${Math.round(bytes / 1024 ** 2)} MiB`
}

function tooLarge(detail: string): Unfit {
  return { fault: { kind: 'too-large', detail }, intact: null }
}
