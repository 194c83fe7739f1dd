/** A problem at a character of the YAML (from 0, UTF-16 units). */
export interface TextProblem {
  readonly at: number
  readonly message: string
}
