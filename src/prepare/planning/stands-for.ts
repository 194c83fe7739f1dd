import type { Spec } from '../../brand-spec/spec.ts'
import { readNames } from '../../delivery/identify.ts'
import type { FoundFile } from '../../delivery/walk.ts'
import type { NameReading } from '../../naming/name-reading.ts'
import { findPeople } from '../../people/people.ts'
import type { Roster } from '../../people/roster.ts'
import { PICK } from '../../people/roster-picks.ts'

/** Whom a master shows. */
export interface StandsFor {
  /** Fields of names and columns of the roster. */
  readonly fields: Readonly<Record<string, string>>
  /** The only one that is made of it, when it is a delivered file itself; null for all. */
  readonly deliverable: string | null
  /** The frame that the person picked; null when the roster names none. */
  readonly pick: string | null
}

/** Whom a master shows, or what has to be asked about it. */
export type Whose = StandsFor | { readonly question: string }

/** What the names of a delivery's files say, read as `check` reads them; null where that is nobody. */
export function standsFor(
  files: readonly FoundFile[],
  spec: Spec,
  roster: Roster | null,
): (StandsFor | null)[] {
  const readings = readNames(files, spec.naming, Object.keys(spec.deliverables))
  const { people, attributions } = findPeople(readings, spec.naming, roster)
  const byLabel = new Map(people.map((person) => [person.label, person]))
  return attributions.map((attribution, index) => {
    const person = byLabel.get(attribution.person ?? '')
    const reading = readings[index]
    // A name that does not read by the pattern tells of somebody only when that person is on the roster.
    if (!person || (!person.entry && (!reading || !isRead(reading)))) return null
    const { values = {} } = person.entry ?? {}
    const fields = { ...person.fields, ...told(values) }
    return { fields, deliverable: reading?.deliverable ?? null, pick: values[PICK] || null }
  })
}

/** What keeps a name from telling whose it is; its ending and what other systems make of it don't. */
const UNREAD: readonly NameReading['problems'][number]['kind'][] = ['no-match', 'field', 'deliverable']

/** Whether a name reads by its pattern as far as the person goes. */
export function isRead({ problems }: NameReading): boolean {
  return !problems.some(({ kind }) => UNREAD.includes(kind))
}

/** The columns in which something stands. */
export function told(values: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== ''))
}
