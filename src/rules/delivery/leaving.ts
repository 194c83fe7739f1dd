import { endingOf, hasEnded, type RosterEntry } from '../../people/roster-entry.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import { PEOPLE_EXPECTED } from './misspelled-names.ts'

interface Leaver {
  readonly label: string
  readonly entry: RosterEntry
  /** As 2026-04-01. */
  readonly today: string
  /** "line 3 of staff.csv" */
  readonly place: string
}

/** How long before its end a consent is told of, days. @choice time enough to ask again; consents are given for years */
const TOLD_BEFORE = 30

/** A day in UTC, ms. @source ECMA-262, msPerDay */
const DAY_MS = 86_400_000

/** The files of somebody with a last day are to be taken down: a failure once that is over, until then a warning. */
export function leaving({ label, entry, today, place }: Leaver, files: readonly string[]): DeliveryFinding[] {
  const ending = endingOf(entry)
  if (ending === null || files.length === 0) return []
  const isOver = hasEnded(entry, today)
  const { cause, day } = ending
  if (cause === 'consent' && !isOver && daysBetween(today, day) > TOLD_BEFORE) return []
  const these = files.length === 1 ? 'this file' : 'these files'
  const words =
    cause === 'left' ? `${isOver ? 'left' : 'leaves'} on ${day}` : `agreed to be shown until ${day}`
  const then = isOver ? '' : cause === 'left' ? ' then' : ' then, or ask again'
  return [
    {
      people: [label],
      files: [...files],
      verdict: 'fail',
      ...(!isOver && { warns: true }),
      measured: words,
      expected: PEOPLE_EXPECTED,
      reason: `${quoted(label)} ${words} (${place}): take ${these} down${then}.`,
      fix: `Delete ${listed(files.map(quoted))}, and take ${files.length === 1 ? 'it' : 'them'} off the pages where ${files.length === 1 ? 'it is' : 'they are'} shown.`,
    },
  ]
}

/** @param from as 2026-04-01; @param to the same */
function daysBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / DAY_MS
}
