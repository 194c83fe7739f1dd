import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { Deed, Entry } from './entry.ts'
import { Journal } from './journal.ts'
import { isDeed, type SessionState, stateOf } from './state.ts'

/** A session, as it is kept in a folder: its log, and what its entries come to. */
export class Session {
  readonly #journal: Journal
  readonly #entries: Entry[]
  #state: SessionState
  #last: Deed | null

  private constructor(journal: Journal, entries: readonly Entry[]) {
    this.#journal = journal
    this.#entries = [...entries]
    const { state, last } = stateOf(entries)
    this.#state = state
    this.#last = last
  }

  /**
   * Opens a session, which begins when there is none.
   * @param folder absolute; made when it is not there
   * @param tell is given why nothing can be written, and null when it goes on
   * @throws the system's error when the folder can't be made, or its log can't be read
   */
  static async open(
    folder: string,
    tell: (trouble: string | null) => void,
  ): Promise<{ session: Session; unread: number }> {
    await mkdir(folder, { recursive: true, mode: 0o700 })
    const { journal, read } = await Journal.open(join(folder, LOG), tell)
    return { session: new Session(journal, read.entries), unread: read.unread }
  }

  get state(): SessionState {
    return this.#state
  }

  /** What `undo` would take back. */
  get last(): Deed | null {
    return this.#last
  }

  add(entry: Exclude<Entry, { kind: 'undo' }>): void {
    this.#keep(entry)
    this.#state.apply(entry)
    if (isDeed(entry)) this.#last = entry
  }

  /** Takes back what was last done by hand; null when there is nothing to take back. */
  undo(): Deed | null {
    const undone = this.#last
    if (!undone) return null
    this.#keep({ kind: 'undo' })
    this.#refold()
    return undone
  }

  /** Writes what waits to be written. */
  retry(): void {
    this.#journal.retry()
  }

  settled(): Promise<void> {
    return this.#journal.settled()
  }

  /**
   * Takes everything of a sitter out of the log, which is written anew: frames, numbers, picks, the name. What is left are
   * the digests of their files, so that they are not looked at again.
   * @returns the digests of their frames and where their files lie
   */
  async forget(sitter: string): Promise<{ digests: readonly string[]; files: readonly string[] }> {
    const own = this.#state.frames.filter((frame) => frame.sitter === sitter)
    const paths = new Set(own.flatMap(({ files }) => files))
    // What a file held before it was written over is theirs as well.
    const overwritten = this.#entries.filter((entry) => entry.kind === 'frame' && paths.has(entry.file))
    const frames = new Set([...own, ...overwritten].flatMap((one) => ('digest' in one ? [one.digest] : [])))
    const { kept, digests } = withoutSitter(this.#entries, sitter, frames)
    await this.#journal.replace(kept)
    this.#entries.splice(0, this.#entries.length, ...kept)
    this.#refold()
    return { digests, files: own.flatMap(({ files }) => files) }
  }

  close(): Promise<void> {
    return this.#journal.close()
  }

  #keep(entry: Entry): void {
    this.#entries.push(entry)
    this.#journal.add(entry)
  }

  #refold(): void {
    const { state, last } = stateOf(this.#entries)
    this.#state = state
    this.#last = last
  }
}

/** Name of the log in the session's folder. */
export const LOG = 'session.jsonl'

/** Entries without a sitter and these frames; deeds are settled by then, since taking back needs what was taken out. */
function withoutSitter(entries: readonly Entry[], sitter: string, frames: ReadonlySet<string>) {
  const digests = new Set(frames)
  const kept: Entry[] = []
  for (const entry of settledDeeds(entries)) {
    const frame = entry.kind === 'frame' ? entry.digest : 'frame' in entry ? entry.frame : null
    if (frame !== null && frames.has(frame)) {
      if ('digest' in entry) digests.add(entry.digest)
    } else if (!('sitter' in entry) || entry.sitter !== sitter) kept.push(entry)
    // Who sat before must not come to have sat on.
    else if (entry.kind === 'sits') kept.push({ kind: 'sits', sitter: null })
  }
  kept.push({ kind: 'forgotten', digests: [...digests] })
  return { kept, digests: [...digests] }
}

/** The same without deeds that were taken back. */
function settledDeeds(entries: readonly Entry[]): Entry[] {
  const kept: Entry[] = []
  for (const entry of entries) {
    if (entry.kind !== 'undo') kept.push(entry)
    else {
      const at = kept.findLastIndex(isDeed)
      if (at >= 0) kept.splice(at, 1)
    }
  }
  return kept
}
