import { basename } from 'node:path'
import type { SourceText } from '../files/source-text.ts'
import type { NamingPattern } from '../naming/naming.ts'
import { listed } from '../text/quantity.ts'
import { quote } from '../text/quote.ts'
import { entryProblems } from './entry-problems.ts'
import { likelyHeaders } from './header-words.ts'
import type { RosterEntry } from './roster-entry.ts'
import { columnName, type LineProblem, type Row, readRows } from './roster-rows.ts'
import type { ColumnHeaders } from './roster-setting.ts'

/** The list of people to be delivered. */
export interface Roster {
  /** Its name without the folder, since findings are passed on. */
  readonly file: string
  /** Names of the columns in order, in the form of field names: "Staff ID" is staff-id. */
  readonly columns: readonly string[]
  /** The columns that tell one person from another: those that are fields of the naming pattern, in its order. */
  readonly key: readonly string[]
  readonly entries: readonly RosterEntry[]
}

const ABSENT = 'absent'
const LEFT = 'left'
const CONSENT = 'consent-until'
// A list of staff has a dozen columns; each row is kept with all of them.
const MOST_COLUMNS = 200

/**
 * Reads a roster: CSV with a header. The columns that bear the names of the naming pattern's fields tell who a file is
 * of; `absent` holds the reason why someone was not photographed, `left` the last day of someone who leaves,
 * `consent-until` the last on which someone agrees to be shown; others are carried along. Titles above the header are passed over. Every problem is told at once, by line.
 * @param headers what the columns are called where they do not bear the names of the fields
 */
export function readRoster(
  { file, text }: SourceText,
  naming: NamingPattern | null,
  headers: ColumnHeaders = {},
): { roster: Roster } | { problems: LineProblem[] } {
  if (naming === null) {
    const message =
      'A roster needs a naming pattern in the spec, so that file names identify people; add "naming:" to the spec.'
    return { problems: [{ line: 1, message }] }
  }
  const read = readRows(text)
  if ('problem' in read) return { problems: [read.problem] }
  const fields = personFields(naming)
  const { titles, header, rows } = belowTitles(read.rows, [...fields, ...Object.keys(headers)], headers)
  if (!header)
    return {
      problems: [{ line: 1, message: 'The roster is empty; write a header and a row for each person.' }],
    }
  const columns = withoutEmptyEnd(columnsOf(header, headers))
  if (columns.length > MOST_COLUMNS) {
    const message = `The header has ${columns.length} columns; a roster may have ${MOST_COLUMNS}. Keep those that identify people, and remove the others.`
    return { problems: [{ line: header.line, message }] }
  }
  const key = fields.filter((field) => columns.includes(field))
  const problems = [
    ...headerProblems({ file, header, columns, key, naming, headers }),
    ...titles.filter((row) => isPerson(row, columns, key, naming)).map(aboveHeader),
    ...widthProblems(rows, columns.length),
  ]
  if (problems.length > 0) return { problems: problems.map((one) => ({ line: header.line, ...one })) }
  const entries = rows.map((row) => entryOf(row, columns))
  const unfit = entryProblems(entries, key, naming)
  if (entries.length === 0)
    unfit.push({ line: header.line, message: 'The roster has a header but no people.' })
  if (unfit.length > 0) return { problems: unfit.sort((a, b) => a.line - b.line) }
  return { roster: { file: basename(file), columns, key, entries } }
}

/** The fields of a naming pattern that may tell one person from another: all but the deliverable and the extension. */
export function personFields({ segments }: NamingPattern): string[] {
  return segments
    .flat()
    .flatMap((piece) => ('field' in piece ? [piece.field] : []))
    .filter((field) => field !== 'deliverable' && field !== 'ext')
}

const MOST_TOLD = 20

/** Spreadsheets write empty columns at the right. */
function withoutEmptyEnd(columns: readonly string[]): string[] {
  return columns.slice(0, columns.findLastIndex((name) => name !== '') + 1)
}

/** Lines that may stand above the header, such as a title. @choice a title, its date and an empty line */
const MOST_TITLES = 5

/** The header is the first row that names a field; without any, the first row of all. */
function belowTitles(rows: readonly Row[], fields: readonly string[], headers: ColumnHeaders) {
  const named = rows
    .slice(0, MOST_TITLES + 1)
    .findIndex((row) => columnsOf(row, headers).some((column) => fields.includes(column)))
  const at = Math.max(0, named)
  return { titles: rows.slice(0, at), header: rows[at], rows: rows.slice(at + 1) }
}

/** The names of the columns: the field where the spec gives its header. */
function columnsOf({ values }: Row, headers: ColumnHeaders): string[] {
  const fields = new Map(Object.entries(headers).map(([field, header]) => [columnName(header), field]))
  return values.map(columnName).map((name) => fields.get(name) ?? name)
}

interface Head {
  readonly file: string
  readonly header: Row
  readonly columns: readonly string[]
  readonly key: readonly string[]
  readonly naming: NamingPattern
  readonly headers: ColumnHeaders
}

function headerProblems({ file, header, columns, key, naming, headers }: Head) {
  const messages: string[] = []
  const found = header.values.slice(0, MOST_TOLD).map(quote).join(', ')
  if (columns.includes('')) messages.push('A column has no name; add one to the header.')
  const seen = new Set<string>()
  const double = columns.find((name) => name !== '' && (seen.has(name) || !seen.add(name)))
  if (double !== undefined) messages.push(`The column ${quote(double)} appears twice; rename one of them.`)
  for (const [field, wanted] of Object.entries(headers).filter(([field]) => !columns.includes(field)))
    messages.push(
      `The spec gives ${quote(wanted)} as the header of ${field}, and no column is called so; there are ${found}.`,
    )
  if (key.length === 0 && messages.length === 0) messages.push(noField({ file, header, naming }, found))
  return messages.map((message) => ({ message }))
}

function noField({ file, header, naming }: Pick<Head, 'file' | 'header' | 'naming'>, found: string): string {
  const fields = personFields(naming)
  if (fields.length === 0)
    return `The naming pattern "${naming.text}" has no field that identifies a person; add one such as {family}.`
  const none = `No column is a field of the naming pattern; it should be one or more of ${fields.join(', ')}, and is ${found}.`
  const likely = [...likelyHeaders(header.values, fields)]
  if (likely.length === 0)
    return `${none} Rename the columns, and save with commas, semicolons or tabs between them.`
  const guess = likely.map(([field, name]) => `${quote(name)} the column ${field}`)
  const columns = likely.map(([field, name]) => `${field}: ${JSON.stringify(name)}`)
  return `${none} Is ${listed(guess)}? Then write into the spec: roster: { file: ${JSON.stringify(basename(file))}, columns: { ${columns.join(', ')} } }`
}

/** Whether a row could be one of the people: one above the header would be missed by nobody. */
function isPerson(
  row: Row,
  columns: readonly string[],
  key: readonly string[],
  naming: NamingPattern,
): boolean {
  const isTitle = row.values.filter((value) => value !== '').length < 2
  return !isTitle && entryProblems([entryOf(row, columns)], key, naming).length === 0
}

function aboveHeader({ line }: Row): LineProblem {
  return {
    line,
    message: 'This row stands above the header and reads like that of a person; move it below the header.',
  }
}

function widthProblems(rows: readonly Row[], width: number): LineProblem[] {
  return rows.flatMap(({ line, values }) => {
    const found = Math.max(values.findLastIndex((value) => value !== '') + 1, Math.min(values.length, width))
    if (found === width) return []
    const message = `The row has ${found} values; the header has ${width}. Put values that contain a comma or semicolon in quotes.`
    return [{ line, message }]
  })
}

function entryOf({ line, values }: Row, columns: readonly string[]): RosterEntry {
  const record: Record<string, string> = Object.create(null)
  for (const [index, name] of columns.entries()) record[name] = (values[index] ?? '').normalize('NFC').trim()
  const told = (column: string) => record[column] || null
  return {
    line,
    values: record,
    absent: told(ABSENT),
    left: told(LEFT),
    consentUntil: told(CONSENT),
  }
}
