import type { Host } from '../checking/host.ts'
import type { ReadStandard } from '../checking/standard.ts'
import type { RosterFile } from './roster-file.ts'

/** What a session is about, and where it is. */
export interface Place {
  /** That frames arrive in, absolute. */
  readonly folder: string
  /** That the session is kept in, absolute. */
  readonly sessionFolder: string
  readonly read: ReadStandard
  readonly roster: RosterFile | null
  readonly host: Host
}
