/** One row of the roster. */
export interface RosterEntry {
  /** Line of the file on which the row begins, from 1. */
  readonly line: number
  /** Values by column, as written but for spaces around them and Unicode form (NFC); all columns, empty ones too. */
  readonly values: Readonly<Record<string, string>>
  /** Why the person was not photographed; null when a portrait is expected. */
  readonly absent: string | null
}

/** The list of people to be delivered. */
export interface Roster {
  /** Path as the user gave it, for messages. */
  readonly file: string
  /** Names of the columns, in order. */
  readonly columns: readonly string[]
  readonly entries: readonly RosterEntry[]
}
