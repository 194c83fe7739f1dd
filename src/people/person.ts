import type { RosterEntry } from './roster-entry.ts'

/** Someone of whom portraits are expected or delivered. */
export interface Person {
  /** How every output calls them, one of a kind in the delivery: "Adeyemi Tola 00418". */
  readonly label: string
  /** The fields of the naming pattern that tell one person from another. */
  readonly fields: Readonly<Record<string, string>>
  /** Their row of the roster; null when they are not on it, or there is none. */
  readonly entry: RosterEntry | null
}
