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
  /** The last day on which the person agrees to be shown, as 2026-03-31; null without such a day. */
  readonly consentUntil: string | null
}

/** Why the portraits of somebody are to be taken down, and the last day on which they may be shown. */
export interface Ending {
  readonly cause: 'left' | 'consent'
  /** As 2026-03-31. */
  readonly day: string
}

/** The day after which somebody's portraits are to be taken down, the first where there are two; null for nobody. */
export function endingOf({ left, consentUntil }: Pick<RosterEntry, 'left' | 'consentUntil'>): Ending | null {
  if (left !== null && (consentUntil === null || left <= consentUntil)) return { cause: 'left', day: left }
  return consentUntil === null ? null : { cause: 'consent', day: consentUntil }
}

/** Whether somebody's portraits are to be taken down. @param today as 2026-04-01 */
export function hasEnded(entry: Pick<RosterEntry, 'left' | 'consentUntil'>, today: string): boolean {
  const ending = endingOf(entry)
  return ending !== null && ending.day < today
}

/** Whether somebody's portrait is to be in the delivery of a day. @param today as 2026-04-01 */
export function isExpected(entry: RosterEntry, today: string): boolean {
  return entry.absent === null && !hasEnded(entry, today)
}
