/** A finding that the planted delivery must have, and how it is told. */
export interface Case {
  readonly fault: string
  readonly rule: string
  /** The files that it must name, all of which fail by it; or the people, where there is no file. */
  readonly subjects: readonly string[]
  /** What it is called where the sentence does not list the files; them unless told. */
  readonly called?: string
  readonly measured: string | null
  /** Exactly as it must be told. Its numbers are measured in pictures that are drawn the same each time. */
  readonly fix: string
}
