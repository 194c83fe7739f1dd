import { readContainer } from './container/container.ts'
import type { Decodable } from './container/sniff.ts'
import { decodePicture } from './decode.ts'
import type { DecodedPicture } from './decoded-picture.ts'
import { decoderWords } from './decoder.ts'
import type { Fault } from './fault.ts'
import { type Header, readHeader } from './header.ts'

export interface Limits {
  /** Largest file that is read. */
  readonly bytes: number
  /** Largest picture that is decoded: width times height. */
  readonly pixels: number
}

/** The header as far as it could be read, and the pixels or the fault. */
export interface Image extends Partial<Header> {
  readonly fault: Fault | null
  /** Null when it was not decoded. */
  readonly intact: boolean | null
  readonly pixels: DecodedPicture | null
}

/** Reads the header of a picture and, when asked to, decodes it. Never rejects. */
export async function readImage(
  data: Buffer,
  format: Decodable,
  decode: boolean,
  maxPixels: number,
): Promise<Image> {
  const container = readContainer(format, data)
  const broken = (detail: string): Image => ({
    fault: { kind: container.endsEarly ? 'truncated' : 'corrupt', detail },
    intact: false,
    pixels: null,
  })

  let header: Header
  try {
    header = await readHeader(data, container)
  } catch (error) {
    return broken(decoderWords(error))
  }
  const { widthPx, heightPx } = header
  if (widthPx * heightPx > maxPixels) {
    return { ...header, ...tooLarge(`${widthPx} x ${heightPx} px; the limit is ${maxPixels} pixels`) }
  }
  if (container.excess !== null) return { ...header, ...tooLarge(container.excess) }
  if (container.endsEarly) return { ...header, ...broken('') }
  if (!decode) return { ...header, fault: null, intact: null, pixels: null }

  try {
    return { ...header, fault: null, intact: true, pixels: await decodePicture(data, maxPixels) }
  } catch (error) {
    return { ...header, ...broken(decoderWords(error)) }
  }
}

function tooLarge(detail: string): Image {
  return { fault: { kind: 'too-large', detail }, intact: null, pixels: null }
}
