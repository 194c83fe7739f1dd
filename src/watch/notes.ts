/** What the photographer has to know of folder, disk and files, as long as it holds; each is told once when it begins. */
export class Notes {
  readonly #notes = new Map<string, string>()
  readonly #tell: (sentence: string) => void
  readonly #changed: () => void

  constructor(tell: (sentence: string) => void, changed: () => void) {
    this.#tell = tell
    this.#changed = changed
  }

  get all(): readonly string[] {
    return [...this.#notes.values()]
  }

  /** @param about what it is about, of which there is one note at most; null ends it */
  set(about: string, sentence: string | null): void {
    if (sentence === null) this.drop(about)
    else if (this.#notes.get(about) !== sentence) {
      this.#notes.set(about, sentence)
      this.#tell(sentence)
      this.#changed()
    }
  }

  drop(about: string): void {
    if (this.#notes.delete(about)) this.#changed()
  }
}
