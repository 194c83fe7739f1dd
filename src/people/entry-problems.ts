import type { NamingPattern } from '../naming/naming.ts'
import { fieldCheck } from '../naming/naming-field.ts'
import { spelledIn } from '../naming/transliterate.ts'
import { isDay } from '../text/day.ts'
import { quote } from '../text/quote.ts'
import { hasWords } from '../text/words.ts'
import type { RosterEntry } from './roster-entry.ts'
import type { LineProblem } from './roster-rows.ts'

/** What is wrong with the values of a roster's rows. @param key the columns that tell one person from another */
export function entryProblems(
  entries: readonly RosterEntry[],
  key: readonly string[],
  naming: NamingPattern,
): LineProblem[] {
  return [
    ...valueProblems(entries, key, naming),
    ...doubles(entries, key, naming),
    ...absentProblems(entries),
    ...dayProblems(entries),
  ]
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
        return [{ line, message: `${field} is empty; write what the person's file names have there.` }]
      const wanted = check(value)
      if (wanted === null) return []
      const hint = isNumber
        ? ' Spreadsheets drop leading zeros: format the column as text.'
        : ' Correct it here or in the spec.'
      return [{ line, message: `${field} must be ${wanted}, as in the spec; found ${quote(value)}.${hint}` }]
    })
  })
}

function doubles(
  entries: readonly RosterEntry[],
  key: readonly string[],
  naming: NamingPattern,
): LineProblem[] {
  const first = new Map<string, number>()
  return entries.flatMap(({ line, values }) => {
    const person = JSON.stringify(key.map((field) => spelledIn(naming, values[field] ?? '')))
    const before = first.get(person)
    if (before === undefined) first.set(person, line)
    if (before === undefined) return []
    const name = key.map((field) => values[field]).join(' ')
    // Two people may have one name, not one number.
    const orTwo = /\d/.test(name)
      ? ''
      : '. If they are two people, add a field to the naming pattern that tells them apart, such as {staff-id}'
    return [{ line, message: `${quote(name)} is already on line ${before}; remove one of the rows${orTwo}.` }]
  })
}

// What people tick a column with, in place of the reason asked for.
const TICKS = ['x', 'y', 'yes', 'true', 'n', 'no', 'false']

function absentProblems(entries: readonly RosterEntry[]): LineProblem[] {
  return entries.flatMap(({ line, absent }) => {
    if (absent === null || (hasWords(absent) && !TICKS.includes(absent.toLowerCase()))) return []
    const message = `absent is ${quote(absent)}; it should be the reason why the person was not photographed, or empty.`
    return [{ line, message }]
  })
}

function dayProblems(entries: readonly RosterEntry[]): LineProblem[] {
  const wrong = (line: number, column: string, what: string, day: string | null): LineProblem[] => {
    if (day === null || isDay(day)) return []
    const message = `${column} is ${quote(day)}; it should be ${what}, written as ${meantDay(day) ?? '2026-03-31'}, or empty.`
    return [{ line, message }]
  }
  return entries.flatMap(({ line, left, consentUntil }) => [
    ...wrong(line, 'left', "the person's last day", left),
    ...wrong(line, 'consent-until', 'the last day on which the person agrees to be shown', consentUntil),
  ])
}

/** The day that a date with dots names, as spreadsheets write it in much of Europe; with slashes, day and month may change places. */
function meantDay(text: string): string | null {
  const [, day = '', month = '', year = ''] = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/.exec(text) ?? []
  const meant = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
  return isDay(meant) ? meant : null
}
