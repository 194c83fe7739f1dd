/** Where the lines of a text begin, to tell line and column of a character. */
export class LineIndex {
  readonly #starts: readonly number[]

  constructor(text: string) {
    this.#starts = [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)]
  }

  /** Line and column, both from 1, of the character at an offset (from 0, UTF-16 units). */
  placeOf(offset: number): { line: number; column: number } {
    let [low, high] = [0, this.#starts.length]
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if ((this.#starts[middle] ?? 0) <= offset) low = middle
      else high = middle
    }
    return { line: low + 1, column: offset - (this.#starts[low] ?? 0) + 1 }
  }
}
