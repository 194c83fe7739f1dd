import type { Standard } from '../judge/standard.ts'
import { findPeople } from '../people/people.ts'
import type { Person } from '../people/person.ts'
import { isExpected } from '../people/roster-entry.ts'
import type { Frame, SessionState } from '../session-log/state.ts'
import type { JudgedFrame } from './judged-frame.ts'

/** How far a sitter is. `to-look-at`: nothing fails, but something could not be measured. */
export type Standing = 'not-yet' | 'photographed' | 'to-look-at' | 'usable' | 'picked'

export interface Sitter {
  readonly label: string
  /** As people are called: "Folasade Adeyemi"; the label where no columns are called so. */
  readonly name: string
  readonly standing: Standing
  /** Their frames in order of arrival. */
  readonly frames: readonly JudgedFrame[]
  /** Those of them in which nothing fails. */
  readonly usable: readonly JudgedFrame[]
  readonly pick: string | null
}

/** The people of the roster who are expected, in its order, and how far each is. */
export function sittersOf(
  { spec, roster }: Pick<Standard, 'spec' | 'roster'>,
  state: SessionState,
  judged: (frame: Frame) => JudgedFrame,
  today: string,
): Sitter[] {
  const { people } = findPeople([], spec.naming, roster)
  const own = new Map<string, Frame[]>()
  for (const frame of state.frames)
    if (frame.sitter !== null) own.set(frame.sitter, [...(own.get(frame.sitter) ?? []), frame])
  return people
    .filter(({ label, entry }) => own.has(label) || (entry !== null && isExpected(entry, today)))
    .map((person) => sitterOf(person, (own.get(person.label) ?? []).map(judged), state))
}

function sitterOf(person: Person, frames: readonly JudgedFrame[], state: SessionState): Sitter {
  const usable = frames.filter(({ verdict }) => verdict !== 'fail')
  const pick = state.picks.get(person.label)?.frame ?? null
  const standing = (): Standing => {
    if (pick !== null) return 'picked'
    if (usable.some(({ verdict }) => verdict === 'pass')) return 'usable'
    if (usable.length > 0) return 'to-look-at'
    return frames.length > 0 ? 'photographed' : 'not-yet'
  }
  return { label: person.label, name: nameOf(person), standing: standing(), frames, usable, pick }
}

/** Given name before family name, in the two columns that nearly all rosters have. */
export function nameOf({ label, fields }: Pick<Person, 'label' | 'fields'>): string {
  const { given, family } = fields
  return given && family ? `${given} ${family}` : label
}
