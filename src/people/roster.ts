import type { SourceText } from '../files/source-text.ts'
import type { NamingPattern } from '../naming/naming.ts'
import { fieldCheck } from '../naming/naming-field.ts'
import { quote } from '../text/quote.ts'
import { columnName, type LineProblem, type Row, readRows } from './roster-rows.ts'

/** One row of the roster. */
export interface RosterEntry {
  /** Line of the file on which the row begins, from 1. */
  readonly line: number
  /** Values by column, in NFC and without spaces around them; all columns, empty ones too. */
  readonly values: Readonly<Record<string, string>>
  /** Why the person was not photographed; null when a portrait is expected. */
  readonly absent: string | null
}

/** The list of people to be delivered. */
export interface Roster {
  /** Path as the user gave it, for messages. */
  readonly file: string
  /** Names of the columns in order, in the form of field names: "Staff ID" is staff-id. */
  readonly columns: readonly string[]
  /** The columns that tell one person from another: those that are fields of the naming pattern, in its order. */
  readonly key: readonly string[]
  readonly entries: readonly RosterEntry[]
}

const ABSENT = 'absent'
// A list of staff has a dozen columns; each row is kept with all of them.
const MOST_COLUMNS = 200

/**
 * Reads a roster: CSV with a header. The columns that bear the names of the naming pattern's fields tell who a file is
 * of; `absent` holds the reason why someone was not photographed; others are carried along.
 * Every problem is told at once, by line.
 */
export function readRoster(
  { file, text }: SourceText,
  naming: NamingPattern | null,
): { roster: Roster } | { problems: LineProblem[] } {
  if (naming === null) {
    const message =
      'A roster needs a naming pattern in the spec, so that names of files tell people; add "naming:" to the spec.'
    return { problems: [{ line: 1, message }] }
  }
  const read = readRows(text)
  if ('problem' in read) return { problems: [read.problem] }
  const [header, ...rows] = read.rows
  if (!header)
    return {
      problems: [{ line: 1, message: 'The roster is empty; write a header and a row for each person.' }],
    }
  const columns = withoutEmptyEnd(header.values.map(columnName))
  if (columns.length > MOST_COLUMNS) {
    const message = `The header has ${columns.length} columns; a roster may have ${MOST_COLUMNS}. Keep those that tell people, and take the others out.`
    return { problems: [{ line: header.line, message }] }
  }
  const key = personFields(naming).filter((field) => columns.includes(field))
  const problems = [...headerProblems(columns, key, naming), ...widthProblems(rows, columns.length)]
  if (problems.length > 0) return { problems: problems.map((one) => ({ line: header.line, ...one })) }
  const entries = rows.map((row) => entryOf(row, columns))
  const unfit = [...valueProblems(entries, key, naming), ...doubles(entries, key), ...absentProblems(entries)]
  if (entries.length === 0)
    unfit.push({ line: header.line, message: 'The roster has a header but no person.' })
  if (unfit.length > 0) return { problems: unfit.sort((a, b) => a.line - b.line) }
  return { roster: { file, columns, key, entries } }
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

function headerProblems(columns: readonly string[], key: readonly string[], naming: NamingPattern) {
  const messages: string[] = []
  if (columns.includes('')) messages.push('A column has no name; write one into the header.')
  const seen = new Set<string>()
  const double = columns.find((name) => name !== '' && (seen.has(name) || !seen.add(name)))
  if (double !== undefined) messages.push(`The column ${quote(double)} stands twice; rename one of them.`)
  if (key.length === 0) {
    const fields = personFields(naming)
    messages.push(
      fields.length === 0
        ? `The naming pattern "${naming.text}" has no field that tells a person; add one such as {family}.`
        : `No column is a field of the naming pattern; it should be one or more of ${fields.join(', ')}, and is ${columns.slice(0, MOST_TOLD).map(quote).join(', ')}. Rename the columns, and save with commas or semicolons between them.`,
    )
  }
  return messages.map((message) => ({ message }))
}

function widthProblems(rows: readonly Row[], width: number): LineProblem[] {
  return rows.flatMap(({ line, values }) => {
    const found = Math.max(values.findLastIndex((value) => value !== '') + 1, Math.min(values.length, width))
    if (found === width) return []
    const message = `The row has ${found} values; the header has ${width}. Put values that hold a comma or semicolon in quotes.`
    return [{ line, message }]
  })
}

function entryOf({ line, values }: Row, columns: readonly string[]): RosterEntry {
  const record: Record<string, string> = Object.create(null)
  for (const [index, name] of columns.entries()) record[name] = (values[index] ?? '').normalize('NFC').trim()
  const { [ABSENT]: absent = '' } = record
  return { line, values: record, absent: absent === '' ? null : absent }
}

function valueProblems(
  entries: readonly RosterEntry[],
  key: readonly string[],
  { fields }: NamingPattern,
): LineProblem[] {
  return key.flatMap((field) => {
    const constraint = fields[field]
    const check = constraint === undefined ? () => null : fieldCheck(constraint)
    const isNumber = constraint !== undefined && 'digits' in constraint
    return entries.flatMap(({ line, values }) => {
      const value = values[field] ?? ''
      if (value === '')
        return [{ line, message: `${field} is empty; write what the person's files have there.` }]
      const wanted = check(value)
      if (wanted === null) return []
      const hint = isNumber
        ? ' Spreadsheets drop zeros at the front: format the column as text.'
        : ' Correct it here or in the spec.'
      return [{ line, message: `${field} must be ${wanted}, as in the spec; found ${quote(value)}.${hint}` }]
    })
  })
}

function doubles(entries: readonly RosterEntry[], key: readonly string[]): LineProblem[] {
  const first = new Map<string, number>()
  return entries.flatMap(({ line, values }) => {
    const person = JSON.stringify(key.map((field) => values[field]))
    const before = first.get(person)
    if (before === undefined) first.set(person, line)
    if (before === undefined) return []
    const name = key.map((field) => values[field]).join(' ')
    return [{ line, message: `${quote(name)} stands on line ${before} already; take one of the rows out.` }]
  })
}

// What people tick a column with, in place of the reason asked for.
const TICKS = ['x', 'y', 'yes', 'true', '1', 'n', 'no', 'false', '0', '-']

function absentProblems(entries: readonly RosterEntry[]): LineProblem[] {
  return entries.flatMap(({ line, absent }) => {
    if (absent === null || !TICKS.includes(absent.toLowerCase())) return []
    const message = `absent is ${quote(absent)}; it should be the reason why the person was not photographed, or empty.`
    return [{ line, message }]
  })
}
