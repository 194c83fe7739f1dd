import { readAtMost } from './read-at-most.ts'

/** A text file that was read: a spec, a roster, waivers. */
export interface SourceText {
  /** Path as the user gave it, for messages. */
  readonly file: string
  readonly text: string
}

// A row of 200 bytes for each of 20,000 people.
const MOST_BYTES = 4 * 1024 * 1024

/**
 * Reads a text file of at most 4 MiB in UTF-8, with or without a byte order mark.
 * @param path absolute
 * @returns the text, or what is wrong in words that follow the file's name: "is not there. ..."
 */
export async function readSourceText(path: string): Promise<{ text: string } | { problem: string }> {
  try {
    const read = await readAtMost(path, MOST_BYTES)
    if ('data' in read) return decoded(read.data)
    if (read.refused === 'no-file')
      return { problem: 'could not be read: it is not a regular file. Name a file with text in it.' }
    return { problem: `has ${Math.ceil(read.bytes / 1024)} KiB; it may have 4096. Is it the right file?` }
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : error
    if (code === 'ENOENT' || code === 'ENOTDIR') return { problem: 'is not there. Check its path.' }
    return { problem: `could not be read (${code}). Check that it is a file and that you may read it.` }
  }
}

function decoded(bytes: Buffer): { text: string } | { problem: string } {
  // Unicode 15, table 2-4 (byte order marks); without a mark, text in UTF-16 has a zero byte in every Latin letter.
  const utf16 =
    bytes.subarray(0, 2).equals(Buffer.of(0xff, 0xfe)) || bytes.subarray(0, 2).equals(Buffer.of(0xfe, 0xff))
  if (utf16 || bytes.includes(0))
    return {
      problem:
        'is in UTF-16 ("Unicode text") or no text at all; it should be in UTF-8. Save it again as "CSV UTF-8" or as plain text in UTF-8.',
    }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) }
  } catch {
    return {
      problem:
        'is not in UTF-8: its accents are of an older encoding. Save it again as "CSV UTF-8" or as plain text in UTF-8.',
    }
  }
}
