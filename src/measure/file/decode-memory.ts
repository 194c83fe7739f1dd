import type { Decodable } from '../schema/formats.ts'
import type { Container } from './container/container.ts'
import type { Header } from './header.ts'

/** What the memory that decoding takes hangs on. */
type Facts = Pick<
  Header,
  'widthPx' | 'heightPx' | 'channels' | 'bitsPerChannel' | 'hasAlpha' | 'orientationTag'
>

/** Channels of a color. @choice definition: red, green and blue. */
const RGB = 3
/** Channels of transparency. @choice definition. */
const ALPHA = 1
/** Bits of a channel where none are told. @choice those of nearly all files; decoders ask for no less. */
const USUAL_BITS = 8
/** Bits in a byte. @choice definition. */
const BYTE = 8

/** What the decoder of WebP holds, bytes a pixel. @tuned as HELD, at 36 million pixels. */
const WEBP_HELD = 6
/** What the decoder of AVIF holds: planes, their interleaved copy, and that of the library, bytes a pixel. @tuned as HELD, at 36 million pixels. */
const AVIF_HELD = { upTo8Bits: 16, beyond: 22 } as const

/**
 * What each decoder holds of the whole picture beside the pixels that it gives, in bytes a pixel: at least what was
 * measured at 36 million pixels, with sharp 0.35.5 on Linux, by the largest memory of a process that does nothing else.
 */
const HELD: Readonly<Record<Decodable, (stored: number, facts: Facts, container: Container) => number>> = {
  // Of several scans all coefficients, 16 bit each (ITU-T T.81, A.3.3 and G.1.1), chroma taken for full.
  jpeg: (_, { channels }, { segments, jpeg }) =>
    jpeg?.progressive || (segments?.scans ?? 0) > 1 ? 2 * (channels ?? RGB) : 0,
  // An interlaced picture, or a strip that is the whole of it, is there before its first row is.
  png: (stored, _, { interlaced }) => (interlaced ? stored : 0),
  tiff: (stored) => stored,
  webp: () => WEBP_HELD,
  avif: (_, { bitsPerChannel }) =>
    AVIF_HELD[(bitsPerChannel ?? USUAL_BITS) > USUAL_BITS ? 'beyond' : 'upTo8Bits'],
}

/** The most memory that decoding a picture takes beside its file, in bytes. */
export function decodeMemory(format: Decodable, facts: Facts, container: Container): number {
  const { widthPx, heightPx, channels, bitsPerChannel, hasAlpha, orientationTag } = facts
  const stored = (channels ?? RGB + ALPHA) * Math.ceil((bitsPerChannel ?? USUAL_BITS) / BYTE)
  // A picture that is shown turned is turned as a whole.
  const turned = (orientationTag ?? 1) > 1 ? stored : 0
  // Laid on white, it is there with its transparency and without.
  const given = hasAlpha ? Math.max(RGB + ALPHA, channels ?? 0) + RGB : RGB
  return widthPx * heightPx * (HELD[format](stored, facts, container) + turned + given)
}

/** Thrown of a picture that would take more memory than decoding may take just now, though not too much by itself. */
export class TooMuchAtOnce extends Error {
  /** What decoding it takes at most, in bytes. */
  readonly bytes: number

  constructor(bytes: number) {
    super(`Decoding takes up to ${bytes} bytes.`)
    this.bytes = bytes
  }
}
