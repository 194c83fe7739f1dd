/** One thing wrong with a text: a sentence that says what is, what should be and what to do. Line and column from 1. */
export interface PlacedProblem {
  readonly line: number
  readonly column: number
  readonly message: string
}
