import { createHash } from 'node:crypto'
import { decodeText } from '../../file/exif/text.ts'

/** The datasets of record 2, the application record, of an IPTC-IIM block (IIM 4.2, chapter 6). */
export interface Iim {
  /** The texts of a dataset in file order, blank ones left out. */
  values(dataset: number): readonly string[]
  /** MD5 of the block as it is now, hexadecimal; Photoshop resource 0x0425 holds the one that XMP was written with. */
  readonly digest: string
  /** The block does not end where a dataset ends. */
  readonly damaged: boolean
}

/** What each dataset begins with. @source IIM 4.2, 1.5. */
export const TAG_MARKER = 0x1c
/** Numbers of records. @source IIM 4.2, chapters 5 and 6. */
const RECORD = { envelope: 1, application: 2 } as const
/** Dataset of the character set. @source IIM 4.2, 1:90. */
const CHARACTER_SET = 90
// Its value for UTF-8, the escape sequence ESC % G of ISO/IEC 2022.
const UTF8 = '\x1b%G'
/** Set in the size of a dataset whose size takes more than two bytes. @source IIM 4.2, 1.5 b. */
const EXTENDED = 0x8000
/** Longest text that is read, bytes. @choice the limit of an ordinary dataset and twice as much, so that a hostile block is cheap. */
const MAX_TEXT = 65_536
/** Most datasets read. @choice 25,000 keywords are no keywords; the bound keeps a hostile block cheap, no source. */
const MAX_DATASETS = 25_000

/** Never throws: a damaged block gives what could be read. */
export function readIim(block: Buffer): Iim {
  const datasets = new Map<number, string[]>()
  let isUtf8 = false
  let count = 0
  let at = 0
  while (block[at] === TAG_MARKER && at + 5 <= block.length && count < MAX_DATASETS) {
    const { from, to } = extent(block, at)
    if (to > block.length) break
    const record = block[at + 1]
    const dataset = block[at + 2] as number
    const value = block.subarray(from, Math.min(to, from + MAX_TEXT))
    if (record === RECORD.envelope && dataset === CHARACTER_SET) isUtf8 = value.toString('latin1') === UTF8
    if (record === RECORD.application) {
      const text = decodeText(value, isUtf8).trim()
      const texts = datasets.get(dataset) ?? []
      if (text !== '') texts.push(text)
      datasets.set(dataset, texts)
    }
    at = to
    count++
  }
  return {
    values: (dataset) => datasets.get(dataset) ?? [],
    digest: createHash('md5').update(block).digest('hex'),
    // Writers pad the block with NULs.
    damaged: block.subarray(at).some((byte) => byte !== 0),
  }
}

/** From where to where a dataset has its value. @source IIM 4.2, 1.5. */
function extent(block: Buffer, at: number): { from: number; to: number } {
  const size = block.readUInt16BE(at + 3)
  if ((size & EXTENDED) === 0) return { from: at + 5, to: at + 5 + size }
  const digits = size & ~EXTENDED
  if (digits < 1 || digits > 4 || at + 5 + digits > block.length) return { from: at, to: Infinity }
  const from = at + 5 + digits
  return { from, to: from + block.readUIntBE(at + 5, digits) }
}
