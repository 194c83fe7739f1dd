import { causeOf } from './cause.ts'
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
 * Reads a text file of at most 4 MiB in UTF-8, with or without a byte order mark, or in UTF-16 with one.
 * @param path absolute
 * @returns the text, or what is wrong in words that follow the file's name: "is not there. ..."
 */
export async function readSourceText(path: string): Promise<{ text: string } | { problem: string }> {
  try {
    const read = await readAtMost(path, MOST_BYTES)
    if ('data' in read) return decoded(read.data)
    if (read.refused === 'no-file')
      return { problem: 'could not be read: it is not a regular file. Name a text file.' }
    return { problem: `is ${Math.ceil(read.bytes / 1024)} KiB; the limit is 4096 KiB. Is it the right file?` }
  } catch (error) {
    const code = causeOf(error)
    if (code === 'ENOENT' || code === 'ENOTDIR') return { problem: 'is not there. Check its path.' }
    return { problem: `could not be read (${code}). Check that it is a file and that you may read it.` }
  }
}

/**
 * First bytes of files that lists of people are kept in, and what they are.
 * @source ZIP: PKWARE APPNOTE 4.3.7 (local file header); compound file: [MS-CFB] 2.2
 */
const WORKBOOKS: readonly (readonly number[])[] = [
  [0x50, 0x4b, 0x03, 0x04],
  [0xd0, 0xcf, 0x11, 0xe0],
]

/** Byte order marks of UTF-16. @source The Unicode Standard 15.0, table 2-4 */
const MARKS = [
  ['utf-16le', [0xff, 0xfe]],
  ['utf-16be', [0xfe, 0xff]],
] as const

function decoded(bytes: Buffer): { text: string } | { problem: string } {
  const begins = (mark: readonly number[]) => bytes.subarray(0, mark.length).equals(Buffer.from(mark))
  if (WORKBOOKS.some(begins))
    return {
      problem:
        'is a workbook (.xlsx, .xls or .ods), not a text file. Open it in a spreadsheet program and save the sheet as "CSV UTF-8".',
    }
  const encoding = MARKS.find(([, mark]) => begins(mark))?.[0] ?? 'utf-8'
  // Without a mark, text in UTF-16 has a zero byte in every Latin letter.
  if (encoding === 'utf-8' && bytes.includes(0))
    return {
      problem:
        'is in UTF-16 without a byte order mark, or is not text at all; it should be in UTF-8. Save it again as "CSV UTF-8" or as plain text in UTF-8.',
    }
  try {
    return { text: new TextDecoder(encoding, { fatal: true }).decode(bytes) }
  } catch {
    return {
      problem:
        encoding === 'utf-8'
          ? 'is not in UTF-8: its accents are in an older encoding. Save it again as "CSV UTF-8" or as plain text in UTF-8.'
          : 'begins as UTF-16 but is not. Save it again as "CSV UTF-8" or as plain text in UTF-8.',
    }
  }
}
