/** Time in which changes are gathered before pages are told, in ms. @choice nobody notices it; a burst of files then costs one message; no source. */
const GATHERED_MS = 30

/** How many times as long as telling pages takes they are left alone at least: while thousands of files arrive, measuring goes first. @choice no source */
const PAUSE = 4

/** Tells pages of changes, of many at once. */
export class Gathered {
  readonly #tell: () => void
  #timer: NodeJS.Timeout | null = null
  /** How long it took to tell pages the last time. */
  #tookMs = 0

  constructor(tell: () => void) {
    this.#tell = tell
  }

  /** Something is to be shown anew. */
  changed(): void {
    const wait = Math.max(GATHERED_MS, PAUSE * this.#tookMs)
    this.#timer ??= setTimeout(() => {
      this.#timer = null
      const began = performance.now()
      this.#tell()
      this.#tookMs = performance.now() - began
    }, wait)
  }

  close(): void {
    if (this.#timer) clearTimeout(this.#timer)
  }
}
