import type { Spec } from '../brand-spec/spec.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import type { NameReading } from '../naming/name-reading.ts'
import type { Person } from '../people/person.ts'

/** A picture, approved or shown, with whom it is said to show. */
export interface Picture {
  readonly name: NameReading
  readonly measured: Measurements
  /** Null when nothing tells. */
  readonly person: Person | null
}

export interface Publication {
  readonly shown: readonly Picture[]
  readonly approved: readonly Picture[]
  /** Those on the roster; everybody of whom a portrait was approved where there is none. */
  readonly people: readonly Person[]
  readonly hasRoster: boolean
  readonly spec: Spec
  /** As 2027-03-31. */
  readonly today: string
}
