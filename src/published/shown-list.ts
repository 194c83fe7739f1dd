import type { NameReading } from '../naming/name-reading.ts'
import type { NamingPattern } from '../naming/naming.ts'
import { personFields } from '../people/roster.ts'
import { columnName, type LineProblem, readRows } from '../people/roster-rows.ts'
import type { ColumnHeaders } from '../people/roster-setting.ts'
import { quote } from '../text/quote.ts'

/** A picture that an export lists. */
export interface ListedPicture {
  readonly line: number
  /** As written: a path from the list's folder, or an address. */
  readonly written: string
  /** Where it may lie, from the list's folder on, the likeliest first. */
  readonly places: readonly string[]
  /** Fields that tell whom it is shown for. */
  readonly fields: Readonly<Record<string, string>>
}

/** What the column with the pictures may be called. @choice everyday words of exports, from memory */
const FILE_COLUMNS = [
  'file',
  'filename',
  'file-name',
  'path',
  'picture',
  'photo',
  'portrait',
  'image',
  'src',
  'url',
]

/** Reads an export of a website: CSV with a column for the picture and those of the roster for the person. */
export function readShownList(
  text: string,
  naming: NamingPattern,
  headers: ColumnHeaders,
): { pictures: ListedPicture[] } | { problem: LineProblem } {
  const read = readRows(text)
  if ('problem' in read) return read
  const [header, ...rows] = read.rows
  if (!header)
    return {
      problem: { line: 1, message: 'The list is empty; it should have a header and a row for each picture.' },
    }
  const own = new Map(Object.entries(headers).map(([field, name]) => [columnName(name), field]))
  const columns = header.values.map(columnName).map((name) => own.get(name) ?? name)
  const at = columns.findIndex((name) => FILE_COLUMNS.includes(name))
  if (at < 0) {
    const message = `No column says which picture is shown; call it "file". There are ${header.values.map(quote).join(', ')}.`
    return { problem: { line: header.line, message } }
  }
  const known = personFields(naming).filter((field) => columns.includes(field))
  if (known.length === 0) {
    const message = `No column says whose picture it is; there should be one or more of ${personFields(naming).join(', ')}.`
    return { problem: { line: header.line, message } }
  }
  const pictures = rows.flatMap(({ line, values }) => {
    const written = (values[at] ?? '').trim()
    if (written === '') return []
    const fields = known.map((field) => [
      field,
      (values[columns.indexOf(field)] ?? '').normalize('NFC').trim(),
    ])
    return [{ line, written, places: placesOf(written), fields: Object.fromEntries(fields) }]
  })
  return { pictures }
}

/** Where a picture may lie that an export names by its path or its address. */
function placesOf(written: string): string[] {
  const path = /^[a-z][a-z0-9+.-]*:\/\//i.test(written) ? pathOf(written) : written.replaceAll('\\', '/')
  const parts = path.split('/').filter((part) => part !== '' && part !== '.')
  if (parts.includes('..')) return []
  // A download keeps the last folders of an address, or none.
  return parts.map((_, i) => parts.slice(i).join('/'))
}

function pathOf(address: string): string {
  try {
    return decodeURIComponent(new URL(address).pathname)
  } catch {
    return ''
  }
}

/** What a row of a list tells of a file, in the form of what a name tells. */
export function listedReading(file: string, fields: Readonly<Record<string, string>>): NameReading {
  return { path: file, pattern: null, fields: { ...fields }, deliverable: null, problems: [] }
}
