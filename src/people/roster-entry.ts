/** One row of the roster. */
export interface RosterEntry {
  /** Line of the file on which the row begins, from 1. */
  readonly line: number
  /** Values by column, in NFC and without spaces around them; all columns, empty ones too. */
  readonly values: Readonly<Record<string, string>>
  /** Why the person was not photographed; null when a portrait is expected. */
  readonly absent: string | null
  /** The person's last day, as 2026-03-31; null for whoever stays. */
  readonly left: string | null
}

/** Whether somebody's last day is over. @param today as 2026-04-01 */
export function hasLeft({ left }: Pick<RosterEntry, 'left'>, today: string): boolean {
  return left !== null && left < today
}

/** Whether somebody's portrait is to be in the delivery of a day. @param today as 2026-04-01 */
export function isExpected(entry: RosterEntry, today: string): boolean {
  return entry.absent === null && !hasLeft(entry, today)
}
