import type { MessagePort } from 'node:worker_threads'
import type { AlikePair, PairSearch, Pictured } from './pair-search.ts'

/** What a thread is told that shares in the work. */
export interface Shared {
  readonly pictures: readonly Pictured[]
  /** How many portions are taken, in shared memory. */
  readonly taken: Int32Array<SharedArrayBuffer>
  /** Where it tells what it has done. */
  readonly port: MessagePort
}

/** What it tells. */
export interface Done {
  readonly portion: number
  readonly pairs: readonly AlikePair[]
}

/** Rows of a portion. @choice no source: of 5,000 pictures some tenths of a second, which is the most that is done twice */
const ROWS = 8

/** The rows of a search in portions that threads take, each one when it is free. */
export class Portions {
  readonly taken: Int32Array<SharedArrayBuffer>
  readonly count: number
  readonly #search: PairSearch

  constructor(
    search: PairSearch,
    taken = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT)),
  ) {
    this.#search = search
    this.taken = taken
    this.count = Math.ceil(search.rows / ROWS)
  }

  /** The next one that no thread has taken; null when there is none. */
  take(): number | null {
    const portion = Atomics.add(this.taken, 0, 1)
    return portion < this.count ? portion : null
  }

  work(portion: number): AlikePair[] {
    return Array.from({ length: ROWS }, (_, k) => this.#search.row(ROWS * portion + k)).flat()
  }
}
