import { collectAsUsual, collectSeldom } from './garbage.ts'
import { Workers } from './workers.ts'

/**
 * A worker that is started while it is not known yet what there is to measure, since starting it and loading its code takes as long as reading the
 * spec. Whoever measures first takes it.
 */
export class Early {
  #workers: Workers | null

  /**
   * @param threads how many there may be when there is much to measure
   * @param looksAtPixels whether what looks at pixels is loaded, too
   */
  constructor(threads: number, looksAtPixels: boolean) {
    collectSeldom()
    this.#workers = new Workers(threads, { loadsAhead: looksAtPixels })
  }

  /** Null when they are taken already. Whoever takes them closes them. */
  take(): Workers | null {
    const workers = this.#workers
    this.#workers = null
    return workers
  }

  /** Ends them unless they were taken. */
  async close(): Promise<void> {
    const workers = this.take()
    if (!workers) return
    collectAsUsual()
    await workers.close()
  }
}
