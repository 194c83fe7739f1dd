import type { Place } from './place.ts'

/** A problem of the spec's content, before its place in the file is looked up. */
export interface Mismatch {
  readonly place: Place
  readonly at: 'key' | 'value'
  readonly message: string
  /** Where other problems, at or below, are of the same cause and not told. */
  readonly covers?: Place
}
