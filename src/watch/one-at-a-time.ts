/** Does pieces of work that share a key one after the other. */
export class OneAtATime {
  readonly #last = new Map<string, Promise<unknown>>()

  async run<T>(key: string, work: () => Promise<T>): Promise<T> {
    const before = this.#last.get(key)
    const own = (async () => {
      await before?.catch(() => {})
      return work()
    })()
    this.#last.set(key, own)
    try {
      return await own
    } finally {
      if (this.#last.get(key) === own) this.#last.delete(key)
    }
  }
}
