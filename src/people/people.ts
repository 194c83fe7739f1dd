import type { NameReading } from '../naming/name-reading.ts'
import type { NamingPattern } from '../naming/naming.ts'
import { byCodePoint } from '../text/code-points.ts'
import type { Person } from './person.ts'
import { Likeness, type Resemblance } from './resemblance.ts'
import { personFields, type Roster, type RosterEntry } from './roster.ts'

/** Whom a file's name stands for. */
export interface Attribution {
  /** Label of a person; null when the name does not tell one. */
  readonly person: string | null
  /** Set when the name is not quite that of the person, who is on the roster. */
  readonly resemblance: Resemblance | null
}

export interface People {
  /** Those on the roster in its order, then others by label. */
  readonly people: readonly Person[]
  /** One for each name, in their order. */
  readonly attributions: readonly Attribution[]
}

/**
 * Tells whom each name stands for. With a roster: the person on it whose fields the name has in any of its readings,
 * the likeliest first; else the one whom it resembles; else someone who is not on it. Without: whoever its first reading
 * tells.
 */
export function findPeople(
  names: readonly NameReading[],
  naming: NamingPattern | null,
  roster: Roster | null,
): People {
  const key = roster?.key ?? (naming === null ? [] : personFields(naming))
  const found = new Map<string, Person>()
  const labels = new Set<string>()
  const add = (fields: Readonly<Record<string, string>>, entry: RosterEntry | null): Person => {
    const id = idOf(fields, key)
    const known = found.get(id)
    if (known) return known
    const values = key.map((field) => fields[field] ?? '')
    const plain = values.join(' ')
    // "A B" and "C", or "A" and "B C".
    const label = labels.has(plain) ? values.join(' | ') : plain
    labels.add(label)
    const person = {
      label,
      fields: Object.fromEntries(key.map((field, i) => [field, values[i] ?? ''])),
      entry,
    }
    found.set(id, person)
    return person
  }
  for (const entry of roster?.entries ?? []) add(entry.values, entry)
  const listed = [...found.values()]
  const likeness = new Likeness(listed, key)
  const attributions = names.map((name): Attribution => {
    const readings = [name.fields, ...(name.otherReadings ?? [])].filter((fields) => tellsPerson(fields, key))
    const [first] = readings
    if (!first) return { person: null, resemblance: null }
    const exact = listed.length > 0 && readings.find((fields) => found.get(idOf(fields, key))?.entry)
    if (exact) return { person: add(exact, null).label, resemblance: null }
    return likeness.find(readings) ?? { person: add(first, null).label, resemblance: null }
  })
  const others = [...found.values()].slice(listed.length).sort((a, b) => byCodePoint(a.label, b.label))
  return { people: [...listed, ...others], attributions }
}

function tellsPerson(fields: Readonly<Record<string, string>>, key: readonly string[]): boolean {
  return key.length > 0 && key.every((field) => Object.hasOwn(fields, field))
}

function idOf(fields: Readonly<Record<string, string>>, key: readonly string[]): string {
  return JSON.stringify(key.map((field) => fields[field]?.normalize('NFC')))
}
