import { inflateSync } from 'node:zlib'
import type { PngChunk } from '../../file/bytes/png.ts'
import type { Unreadable } from '../../schema/metadata-facts.ts'

export interface PngText {
  readonly keyword: string
  readonly text: string
}

/**
 * Reads a text chunk: `tEXt` (Latin-1), `zTXt` (the same compressed) or `iTXt` (UTF-8, compressed or not). PNG, third
 * edition, 11.3.3.2 to 11.3.3.4. Never throws.
 * @param maxBytes a text that unpacks to more is refused
 */
export function readPngText({ type, data }: PngChunk, maxBytes: number): PngText | Pick<Unreadable, 'why'> {
  const end = data.indexOf(0)
  if (end < 0) return { why: 'damaged' }
  const keyword = data.toString('latin1', 0, end)
  const rest = data.subarray(end + 1)
  if (type === 'tEXt') return packed(keyword, rest, false, 'latin1', maxBytes)
  // The compression method, 0, stands before the text.
  if (type === 'zTXt') return packed(keyword, rest.subarray(1), true, 'latin1', maxBytes)
  // Flag, method, language and translated keyword, the two last ended by NULs.
  const language = rest.indexOf(0, 2)
  const translated = language < 0 ? -1 : rest.indexOf(0, language + 1)
  if (translated < 0) return { why: 'damaged' }
  return packed(keyword, rest.subarray(translated + 1), rest[0] === 1, 'utf8', maxBytes)
}

function packed(
  keyword: string,
  bytes: Buffer,
  compressed: boolean,
  encoding: 'latin1' | 'utf8',
  maxBytes: number,
): PngText | Pick<Unreadable, 'why'> {
  if (!compressed && bytes.length > maxBytes) return { why: 'too-large' }
  try {
    const text = compressed ? inflateSync(bytes, { maxOutputLength: maxBytes }) : bytes
    return { keyword, text: text.toString(encoding) }
  } catch (error) {
    const isTooLarge = error instanceof RangeError && 'code' in error && error.code === 'ERR_BUFFER_TOO_LARGE'
    return { why: isTooLarge ? 'too-large' : 'damaged' }
  }
}
