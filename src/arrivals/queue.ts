/** Work that waits for its turn: what is urgent goes before what is not, and either in the order in which it came. */
export class Queue<T> {
  readonly #urgent = new Set<T>()
  readonly #others = new Set<T>()
  readonly #work: (item: T) => Promise<void>
  readonly #atOnce: number
  #running = 0
  #whenIdle: (() => void)[] = []

  /** @param work never rejects */
  constructor(atOnce: number, work: (item: T) => Promise<void>) {
    this.#atOnce = atOnce
    this.#work = work
  }

  /** What waits already keeps its place, unless it has become urgent. */
  add(item: T, isUrgent: boolean): void {
    if (isUrgent) this.#others.delete(item)
    if (this.#urgent.has(item)) return
    ;(isUrgent ? this.#urgent : this.#others).add(item)
    this.#next()
  }

  get length(): number {
    return this.#urgent.size + this.#others.size + this.#running
  }

  /** Drops what waits, and resolves when nothing is worked on. */
  async stop(): Promise<void> {
    this.#urgent.clear()
    this.#others.clear()
    if (this.#running > 0) await new Promise<void>((resolve) => this.#whenIdle.push(resolve))
  }

  #next(): void {
    while (this.#running < this.#atOnce) {
      const from = this.#urgent.size > 0 ? this.#urgent : this.#others
      const [item] = from
      if (item === undefined) return
      from.delete(item)
      this.#running++
      void this.#work(item).finally(() => {
        this.#running--
        this.#next()
        if (this.#running === 0) for (const resolve of this.#whenIdle.splice(0)) resolve()
      })
    }
  }
}
