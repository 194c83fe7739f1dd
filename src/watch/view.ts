import type { JudgedFrame } from './judged-frame.ts'
import type { Course } from './session-drift.ts'
import type { Sitter } from './sitters.ts'

/** All that pages and the terminal show of a session. */
export interface View {
  readonly brand: string
  readonly sitters: readonly Sitter[]
  readonly sitting: Sitter | null
  readonly last: JudgedFrame | null
  readonly course: Course
  /** How many frames there are, and how many files wait. */
  readonly frames: number
  readonly waiting: number
  /** What is wrong around the session, one sentence each. */
  readonly notes: readonly string[]
  /** What undo would take back, in words; null when there is nothing. */
  readonly undo: string | null
  readonly consent: string | null
}
