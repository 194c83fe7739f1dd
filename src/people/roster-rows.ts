import { CsvError, parse } from 'csv-parse/sync'

/** One record of a CSV text. */
export interface Row {
  /** Line on which the record begins, from 1. */
  readonly line: number
  readonly values: readonly string[]
}

/** Something wrong with a file: its line, from 1, and a sentence. */
export interface LineProblem {
  readonly line: number
  readonly message: string
}

// A list of 4 MiB, the largest that is read, has a row of 200 bytes for each of 20,000 people. Short rows take longest.
const MOST_RECORDS = 50_000

/**
 * Reads CSV by RFC 4180, with commas or semicolons, whichever the first record has more of, and any line ends. Spaces
 * are data, quotes within quotes are doubled; lines with nothing on them are left out. The text has no byte order mark.
 */
export function readRows(text: string): { rows: Row[] } | { problem: LineProblem } {
  try {
    const rows: Row[] = []
    let overcounted = 0
    let records = 0
    parse(text, {
      delimiter: delimiterOf(text),
      // A value of one line may be followed by one with breaks of its own: all three count everywhere.
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      to: MOST_RECORDS + 1,
      // Inches and arc seconds: a quote within a value that does not begin with one is a character like others.
      relax_quotes: true,
      on_record: (values: string[], { lines }) => {
        records++
        // The parser counts CR LF within quotes as two lines.
        const line = lines - overcounted - occurrences(/[\r\n]/g, values)
        overcounted += occurrences(/\r\n/g, values)
        if (values.some((value) => value !== '')) rows.push({ line, values })
        return null
      },
    })
    if (records <= MOST_RECORDS) return { rows }
    const message = `The list goes on for more than ${MOST_RECORDS} lines. Is it the right file?`
    return { problem: { line: MOST_RECORDS + 1, message } }
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    return { problem: { line: lineOf(error), message: sentence(error.code) } }
  }
}

function occurrences(pattern: RegExp, values: readonly string[]): number {
  return values.reduce((sum, value) => sum + (value.match(pattern)?.length ?? 0), 0)
}

/** The sign between the columns, by the first record: what stands in quotes does not count. */
function delimiterOf(text: string): ',' | ';' {
  const [header = ''] = text.replace(/"[^"]*"/g, '').split(/[\r\n]/, 1)
  return header.split(';').length > header.split(',').length ? ';' : ','
}

/** A column's name as the roster knows it: "Staff ID" and "staff_id" are `staff-id`. */
export function columnName(header: string): string {
  return header
    .normalize('NFC')
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-')
}

function lineOf(error: CsvError): number {
  const lines: unknown = Reflect.get(error, 'lines')
  return typeof lines === 'number' ? lines : 1
}

function sentence(code: string): string {
  if (code === 'CSV_QUOTE_NOT_CLOSED')
    return 'A quotation mark opens here and is never closed; close it, or write two of them where one is meant.'
  return `The line is no CSV (${code}); save the list again as "CSV UTF-8".`
}
