import type { ReadStandard } from '../checking/standard.ts'
import type { Answers } from '../hand-over/answers.ts'
import type { Opened } from '../hand-over/opened.ts'
import type { Received } from '../hand-over/receive.ts'
import type { Progress } from '../pool/measure-all.ts'

/** How far a delivery is. */
export type Stage =
  /** Files of it come in. */
  | { readonly at: 'arriving' }
  | { readonly at: 'waiting' }
  /** It is unpacked and verified, then measured: so many portraits of so many. */
  | { readonly at: 'checking'; readonly progress: Progress | null }
  /** It could not be taken in; why, in sentences. */
  | { readonly at: 'failed'; readonly why: string }
  | { readonly at: 'received'; readonly received: Received }

/** What somebody has signed. */
export interface Signed {
  readonly by: string
  readonly decision: 'approved' | 'returned'
  /** The file's text, and the name to save it under. */
  readonly text: string
  readonly name: string
  /** Where it was saved; null when it is only offered. */
  readonly savedAs: string | null
  /** Whether the file lies anywhere but here: saved, or taken by the page. */
  isKept: boolean
}

/** A delivery at the desk. */
export interface Incoming {
  readonly id: string
  readonly name: string
  /** Absolute path of the zip or the folder. */
  readonly path: string
  /** Absolute path of a folder that goes when the delivery is put away; null when it lies in a folder of the user's. */
  readonly own: string | null
  /** Ends what is done with it. */
  readonly stop: AbortController
  stage: Stage
  /** Held open while it is at the desk. */
  opened: Opened | null
  /** What it was judged by; null when there was none. */
  standard: ReadStandard | null
  answers: Answers
  signed: Signed | null
  /** Why it was not signed, in a sentence. */
  complaint: string | null
}
