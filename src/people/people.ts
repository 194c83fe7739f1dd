import type { NameReading } from '../naming/name-reading.ts'
import type { NamingPattern } from '../naming/naming.ts'
import { spelledIn } from '../naming/transliterate.ts'
import { byCodePoint } from '../text/code-points.ts'
import type { Person } from './person.ts'
import { Likeness, type Resemblance, withoutVersions } from './resemblance.ts'
import { personFields, type Roster } from './roster.ts'
import type { RosterEntry } from './roster-entry.ts'

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
 * the likeliest first; else the one whom it resembles. Else, and without a roster, whoever its first reading tells; a name
 * that is another's but for a version at its end means the person of that other name.
 */
export function findPeople(
  names: readonly NameReading[],
  naming: NamingPattern | null,
  roster: Roster | null,
): People {
  const key = roster?.key ?? (naming === null ? [] : personFields(naming))
  const idOf = idsBy(key, naming)
  const found = new Map<string, Person>()
  const labels = new Set<string>()
  const add = (
    fields: Readonly<Record<string, string>>,
    entry: RosterEntry | null,
    id = idOf(fields),
  ): Person => {
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
  const spelled = (fields: Readonly<Record<string, string>>) =>
    Object.fromEntries(Object.entries(fields).map(([field, value]) => [field, spelledIn(naming, value)]))
  const likeness = new Likeness(
    naming?.transliterate ? listed.map((person) => ({ ...person, fields: spelled(person.fields) })) : listed,
    key,
  )
  const read = names.map(({ fields, otherReadings = [], deliverable }): Read => {
    const readings = [fields, ...otherReadings].filter((one) => tellsPerson(one, key))
    return { deliverable, readings, id: readings[0] ? idOf(readings[0]) : '' }
  })
  const versions = new Versions(read, key, idOf)
  const attributions = read.map(({ readings, deliverable, id }): Attribution => {
    const [first] = readings
    if (!first) return { person: null, resemblance: null }
    const exact = listed.length > 0 && readings.find((fields) => found.get(idOf(fields))?.entry)
    if (exact) return { person: add(exact, null).label, resemblance: null }
    const alike = listed.length > 0 ? likeness.find(readings) : null
    if (alike) return alike
    const version = versions.of(readings, deliverable)
    if (version) return { person: add(version.fields, null).label, resemblance: version.resemblance }
    return { person: add(first, null, id).label, resemblance: null }
  })
  const others = [...found.values()].slice(listed.length).sort((a, b) => byCodePoint(a.label, b.label))
  return { people: [...listed, ...others], attributions }
}

interface Read {
  readonly readings: readonly Readonly<Record<string, string>>[]
  /** Of the person whom the first reading tells; empty when there is none. */
  readonly id: string
  readonly deliverable: string | null
}

/** The names of a delivery by which a version after one of them is known as such. */
class Versions {
  readonly #key: readonly string[]
  readonly #idOf: IdOf
  /** For each person whom a first reading tells, the deliverables of the files with that name. */
  readonly #held = new Map<string, Set<string | null>>()

  constructor(read: readonly Read[], key: readonly string[], idOf: IdOf) {
    this.#key = key
    this.#idOf = idOf
    for (const { readings, deliverable, id } of read) {
      if (readings.length === 0) continue
      const held = this.#held.get(id)
      if (held) held.add(deliverable)
      else this.#held.set(id, new Set([deliverable]))
    }
  }

  of(readings: Read['readings'], deliverable: string | null) {
    for (const reading of readings) {
      const one = withoutVersions(reading, this.#key)
      const held = one && this.#held.get(this.#idOf(one.fields))
      if (!held || (!one.isClear && held.has(deliverable))) continue
      const resemblance: Resemblance = { fields: one.versioned, by: 'suffix', among: 'names' }
      return { fields: one.fields, resemblance }
    }
    return null
  }
}

function tellsPerson(fields: Readonly<Record<string, string>>, key: readonly string[]): boolean {
  return key.length > 0 && key.every((field) => Object.hasOwn(fields, field))
}

type IdOf = (fields: Readonly<Record<string, string>>) => string

/** What one person's names have in common, however they are written. */
function idsBy(key: readonly string[], naming: NamingPattern | null): IdOf {
  return (fields) => JSON.stringify(key.map((field) => spelledIn(naming, fields[field] ?? '')))
}
