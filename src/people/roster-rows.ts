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
 * Reads CSV by RFC 4180 and what spreadsheets make of it: divided by commas, semicolons or tabs, by whichever the first
 * lines agree most in the number of columns, or by the sign that a first line `sep=;` names; with any line ends; a value as `="00990"` is what
 * stands in its quotes. Spaces are data, quotes within quotes are doubled; lines with nothing on them are left out. The
 * text has no byte order mark.
 */
export function readRows(text: string): { rows: Row[] } | { problem: LineProblem } {
  try {
    const rows: Row[] = []
    let overcounted = 0
    let records = 0
    const { delimiter, skipped } = dividedBy(text)
    // A quote within a value is a character, so the parser would take the one of ="00990" for no quote at all.
    parse(unwrapped(text), {
      delimiter,
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
        if (line > skipped && values.some((value) => value !== '')) rows.push({ line, values })
        return null
      },
    })
    if (records <= MOST_RECORDS) return { rows }
    const message = `The list has more than ${MOST_RECORDS} lines. Is it the right file?`
    return { problem: { line: MOST_RECORDS + 1, message } }
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    return { problem: { line: lineOf(error), message: sentence(error.code) } }
  }
}

function occurrences(pattern: RegExp, values: readonly string[]): number {
  return values.reduce((sum, value) => sum + (value.match(pattern)?.length ?? 0), 0)
}

/** Lines that decide what divides the columns. @choice a title and a header fit; values hold signs of their own. */
const DECIDING_LINES = 5
const DIVIDERS = [',', ';', '\t'] as const

/** The sign between the columns, and how many lines at the top only name it; what stands in quotes does not count. */
export function dividedBy(text: string): { delimiter: string; skipped: number } {
  const named = /^sep=([^\r\n])\r?(?:\n|$)/i.exec(text)?.[1]
  if (named !== undefined) return { delimiter: named, skipped: 1 }
  const lines = text.replace(/"[^"]*"/g, '').split(/\r\n|\n|\r/, DECIDING_LINES)
  const [delimiter] = DIVIDERS.map((sign) => ({ sign, ...agreement(lines, sign) })).toSorted(
    (a, b) => b.lines - a.lines || b.columns - a.columns,
  )
  return { delimiter: delimiter?.sign ?? ',', skipped: 0 }
}

/** The most columns that one sign makes of the same number on several lines, and on how many. */
function agreement(lines: readonly string[], sign: string): { lines: number; columns: number } {
  const counts = lines.map((line) => line.split(sign).length).filter((columns) => columns > 1)
  const having = counts.map((columns) => ({ columns, lines: counts.filter((one) => one === columns).length }))
  const [best] = having.toSorted((a, b) => b.lines - a.lines || b.columns - a.columns)
  return best ?? { lines: 0, columns: 0 }
}

/** Values that a spreadsheet was kept from reading as numbers, `="00990"`, as plain ones in quotes. */
function unwrapped(text: string): string {
  return text.replace(/(^|[,;\t\r\n])="([^"\r\n]*)"(?=[,;\t\r\n]|$)/g, '$1"$2"')
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
    return 'A quotation mark opens here and is never closed; close it, or double it if it is part of the text.'
  return `The line is not valid CSV (${code}); save the list again as "CSV UTF-8".`
}
