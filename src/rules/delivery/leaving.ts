import type { RosterEntry } from '../../people/roster-entry.ts'
import { hasLeft } from '../../people/roster-entry.ts'
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

/** The files of somebody with a last day are to be taken down: a failure once that is over, until then a warning. */
export function leaving({ label, entry, today, place }: Leaver, files: readonly string[]): DeliveryFinding[] {
  const { left } = entry
  if (left === null || files.length === 0) return []
  const isGone = hasLeft(entry, today)
  const leaves = `${isGone ? 'left' : 'leaves'} on ${left}`
  const these = files.length === 1 ? 'this file' : 'these files'
  return [
    {
      people: [label],
      files: [...files],
      verdict: 'fail',
      ...(!isGone && { warns: true }),
      measured: leaves,
      expected: PEOPLE_EXPECTED,
      reason: `${quoted(label)} ${leaves} (${place}): take ${these} down${isGone ? '' : ' then'}.`,
      fix: `Delete ${listed(files.map(quoted))}, and take ${files.length === 1 ? 'it' : 'them'} off the pages where ${files.length === 1 ? 'it is' : 'they are'} shown.`,
    },
  ]
}
