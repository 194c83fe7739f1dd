/** One thing wrong with a text: a sentence that says what is, what should be and what to do. Line and column from 1. */
export interface PlacedProblem {
  readonly line: number
  readonly column: number
  readonly message: string
  /** Path of the file, where that is another one than was named: a spec that is extended. */
  readonly file?: string
}
