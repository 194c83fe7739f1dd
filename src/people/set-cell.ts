import { dividedBy } from './roster-rows.ts'

/** A value to write into a CSV text: the line on which its row begins, from 1, and the number of its column, from 0. */
interface CellChange {
  readonly line: number
  readonly column: number
  readonly value: string
}

/**
 * A CSV text with one value changed and everything else as it was, byte for byte. Null when there is no such row, or it
 * has fewer columns. Text is read as `readRows` does it; what comes out is to be read again and compared.
 */
export function withCell(text: string, { line, column, value }: CellChange): string | null {
  const { delimiter } = dividedBy(text)
  let at = startOfLine(text, line)
  if (at === null) return null
  for (let n = 0; ; n++) {
    const end = endOfValue(text, at, delimiter)
    if (n === column) return text.slice(0, at) + inCsv(value, delimiter) + text.slice(end)
    if (text[end] !== delimiter) return null
    at = end + 1
  }
}

/** A value as it stands in a line of CSV (RFC 4180): in quotes where it holds a sign that means something there. */
export function inCsv(value: string, delimiter: string): string {
  const isPlain = !value.includes(delimiter) && !/["\r\n]/.test(value) && value.trim() === value
  return isPlain ? value : `"${value.replaceAll('"', '""')}"`
}

function startOfLine(text: string, line: number): number | null {
  let at = 0
  for (let n = 1; n < line; n++) {
    const found = /\r\n|\n|\r/.exec(text.slice(at))
    if (!found) return null
    at += found.index + found[0].length
  }
  return at
}

/** Where a value ends that begins at `from`: before the sign between columns, the end of the line or of the text. */
function endOfValue(text: string, from: number, delimiter: string): number {
  let at = from
  const opening = text.startsWith('="', from) ? 2 : text[from] === '"' ? 1 : 0
  if (opening > 0) {
    at += opening
    // Two quotes stand for one, and the value goes on.
    while (at < text.length && (text[at] !== '"' || text[at + 1] === '"')) at += text[at] === '"' ? 2 : 1
    at++
  }
  while (at < text.length && text[at] !== delimiter && text[at] !== '\n' && text[at] !== '\r') at++
  return Math.min(at, text.length)
}
