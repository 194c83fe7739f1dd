import type { SessionState } from '../session-log/state.ts'
import type { Notes } from './notes.ts'
import { pickName } from './pick-name.ts'
import type { RosterFile } from './roster-file.ts'

/** Brings a session's picks into the roster, one time after the other. */
export class PickWriter {
  readonly #roster: RosterFile | null
  readonly #notes: Notes
  #writing: Promise<void> = Promise.resolve()

  /** @param roster null when there is none: picks then stand in the log alone */
  constructor(roster: RosterFile | null, notes: Notes) {
    this.#roster = roster
    this.#notes = notes
  }

  /** What the roster says of somebody's pick now. */
  async before(sitter: string): Promise<string> {
    return (await this.#roster?.pickOf(sitter)) ?? ''
  }

  /**
   * Writes all picks of a session.
   * @param undone a pick that was taken back and of which the session knows nothing more: what the roster said before
   */
  write(state: SessionState, undone?: { readonly sitter: string; readonly was: string }): void {
    const picks = new Map(undone ? [[undone.sitter, undone.was]] : [])
    for (const [sitter, { frame, was }] of state.picks) {
      const picked = frame === null ? null : state.frame(frame)
      picks.set(sitter, picked ? pickName(picked, state.frames) : was)
    }
    const roster = this.#roster
    if (!roster) return
    this.#writing = this.#writing.then(async () => {
      const written = await roster.write(picks)
      this.#notes.set('picks', 'problem' in written ? written.problem : null)
    })
  }

  settled(): Promise<void> {
    return this.#writing
  }
}
