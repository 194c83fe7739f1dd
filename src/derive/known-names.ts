import { columnName, readRows } from '../people/roster-rows.ts'
import type { KnownNames } from './name-slots.ts'

const FIELDS = ['family', 'given', 'staff-id']

/** The names that a roster's columns hold, by which parts of file names are told; a sentence when it can't be read. */
export function knownNames(text: string): { known: KnownNames } | { problem: string } {
  const read = readRows(text)
  if ('problem' in read) return { problem: `line ${read.problem.line}: ${read.problem.message}` }
  const [header, ...rows] = read.rows
  const columns = (header?.values ?? []).map(columnName)
  const known = new Map<string, Set<string>>()
  for (const field of FIELDS) {
    const at = columns.indexOf(field)
    if (at < 0) continue
    const values = rows.map(({ values: row }) => (row[at] ?? '').trim().normalize('NFC').toLowerCase())
    known.set(field, new Set(values.filter((value) => value !== '')))
  }
  if (known.size === 0)
    return { problem: `line 1: none of the columns is ${FIELDS.join(', ')}; name at least one so.` }
  return { known }
}
