// What a file of more takes is given back; most portraits are smaller.
const MOST_KEPT = 64 * 1024 * 1024

/**
 * Memory that one file after the other is read into. A fresh piece for each would leave the old ones to be collected,
 * which takes longer than reading.
 */
export class FileMemory {
  #kept = Buffer.alloc(0)

  /** At least so many bytes, which hold the file before until they are written over. */
  ofAtLeast(bytes: number): Buffer {
    if (bytes > MOST_KEPT) return Buffer.allocUnsafeSlow(bytes)
    if (this.#kept.length < bytes)
      this.#kept = Buffer.allocUnsafeSlow(Math.min(MOST_KEPT, bytes + Math.ceil(bytes / 2)))
    return this.#kept
  }
}
