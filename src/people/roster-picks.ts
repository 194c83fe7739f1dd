import type { SourceText } from '../files/source-text.ts'
import type { NamingPattern } from '../naming/naming.ts'
import { type Roster, readRoster } from './roster.ts'
import { columnName, readRows } from './roster-rows.ts'
import type { ColumnHeaders } from './roster-setting.ts'
import { inCsv, withCell } from './set-cell.ts'

/** Column of the roster that holds the frame that a sitter picked. */
export const PICK = 'pick'

/** How a roster is read. */
export interface RosterReading {
  readonly naming: NamingPattern | null
  readonly headers: ColumnHeaders
}

/**
 * A roster's text with what somebody picked in its column `pick`, and everything else as it was. Null when it has no such
 * column, or can't be changed so: what comes out is read again, and must be the same roster but for that value.
 * @param line where the person's row begins, from 1
 */
export function withPick(
  source: SourceText,
  { line, value }: { readonly line: number; readonly value: string },
  { naming, headers }: RosterReading,
): string | null {
  const before = readRoster(source, naming, headers)
  if ('problems' in before) return null
  const column = before.roster.columns.indexOf(PICK)
  const text = column < 0 ? null : withCell(source.text, { line, column, value })
  if (text === null) return null
  const after = readRoster({ ...source, text }, naming, headers)
  return !('problems' in after) && differsOnly(before.roster, after.roster, line, value) ? text : null
}

function differsOnly({ entries: before }: Roster, { entries: after }: Roster, line: number, value: string) {
  return (
    before.length === after.length &&
    before.every((old, n) => {
      const entry = after[n]
      const wanted = old.line === line ? { ...old.values, [PICK]: value } : old.values
      return (
        entry?.line === old.line && Object.entries(wanted).every(([key, one]) => entry.values[key] === one)
      )
    })
  )
}

/**
 * A copy of a roster with the column `pick`, for whoever's roster has none; null when it can't be made.
 * @param picks by the line on which a person's row begins
 */
export function copyWithPicks(
  source: SourceText,
  picks: ReadonlyMap<number, string>,
  { naming, headers }: RosterReading,
): string | null {
  const read = readRoster(source, naming, headers)
  const table = readRows(source.text)
  if ('problems' in read || 'problem' in table) return null
  const { columns, entries } = read.roster
  const [first] = entries
  const header = table.rows.findLast(({ line }) => line < (first?.line ?? 0))
  if (!header) return null
  const at = columns.includes(PICK) ? columns.indexOf(PICK) : columns.length
  const rowOf = ({ line, values }: (typeof table.rows)[number]) => {
    const own = Array.from({ length: Math.max(columns.length, at + 1) }, (_, n) => values[n] ?? '')
    if (line === header.line && columnName(own[at] ?? '') !== PICK) own[at] = PICK
    const pick = picks.get(line)
    if (pick !== undefined) own[at] = pick
    return own.map((value) => inCsv(value, ',')).join(',')
  }
  return `${table.rows.map(rowOf).join('\r\n')}\r\n`
}
