interface RiffChunk {
  readonly type: string
  readonly data: Buffer
}

export interface Riff {
  readonly chunks: readonly RiffChunk[]
  /** How many chunks there are; beyond {@link MAX_RIFF_CHUNKS} they are not kept. */
  readonly count: number
  /** Where the file ends by the size that it states, the padding byte included, which the decoder wants. */
  readonly end: number
}

/** Most chunks kept. @choice as for PNG: files have nine at most; the bound keeps a hostile one from making millions, no source. */
export const MAX_RIFF_CHUNKS = 5000

/** Bytes of code and size before what the size counts. @source RFC 9649, 2.3. */
const BEFORE = 8
/** Where the first chunk begins. @source RFC 9649, 2.4. */
const FIRST = 12

/**
 * Reads the chunks of a WebP: code, size, data, and a byte of padding behind an odd size. A last chunk that runs past the
 * end is given as far as it goes. Never throws.
 * @source RFC 9649, 2.3 and 2.4: bytes 4 to 7, little-endian, hold the size of all that follows.
 */
export function readRiff(webp: Buffer): Riff {
  const end = BEFORE + (webp.length >= BEFORE ? webp.readUInt32LE(4) : Infinity)
  const last = Math.min(end, webp.length)
  const chunks: RiffChunk[] = []
  let count = 0
  for (let at = FIRST; at + BEFORE <= last; ) {
    const size = webp.readUInt32LE(at + 4)
    const from = at + BEFORE
    if (++count <= MAX_RIFF_CHUNKS)
      chunks.push({
        type: webp.toString('latin1', at, at + 4),
        data: webp.subarray(from, Math.min(from + size, last)),
      })
    at = from + size + (size % 2)
  }
  return { chunks, count, end }
}
