/** Names of encodings in which each byte is the code point of a character. */
const BYTES = /^(?:iso[-_]?8859-1|latin-?1|us-ascii|ascii)$/i

/**
 * The text of a tag file in the encoding that `bagit.txt` names; null when it is not in that encoding or nobody knows it.
 * A byte order mark is no part of the text.
 */
export function tagText(bytes: Buffer, encoding: string): string | null {
  // The encodings that TextDecoder has under these names differ from them.
  if (BYTES.test(encoding)) return bytes.toString('latin1')
  try {
    return new TextDecoder(utf16Order(bytes, encoding), { fatal: true }).decode(bytes)
  } catch {
    return null
  }
}

/** Without a mark, UTF-16 is big endian (RFC 2781, 4.3). */
function utf16Order(bytes: Buffer, encoding: string): string {
  if (!/^utf-?16$/i.test(encoding)) return encoding
  return bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : 'utf-16be'
}

/** The lines of a tag file, which end in CR, LF or both (RFC 8493, 2); an empty last one is none. */
export function tagLines(text: string): string[] {
  const lines = text.split(/\r\n|\r|\n/)
  return lines.at(-1) === '' ? lines.slice(0, -1) : lines
}
