// What a file of more takes is given back; most portraits are smaller.
const MOST_KEPT = 64 * 1024 * 1024

/**
 * Memory that one file after the other is read into. A fresh piece for each would leave the old ones to be collected,
 * which takes longer than reading.
 */
export class FileMemory {
  readonly #take: (bytes: number) => Buffer
  #kept: Buffer = Buffer.alloc(0)

  /** @param take gives memory, and may take away what it gave before; new memory by default */
  constructor(take: (bytes: number) => Buffer = Buffer.allocUnsafeSlow) {
    this.#take = take
  }

  /** At least so many bytes, which hold the file before until they are written over. */
  ofAtLeast(bytes: number): Buffer {
    if (bytes > MOST_KEPT) return Buffer.allocUnsafeSlow(bytes)
    if (this.#kept.length < bytes) this.#kept = this.#take(Math.min(MOST_KEPT, bytes + Math.ceil(bytes / 2)))
    return this.#kept
  }
}
