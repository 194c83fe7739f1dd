import type { NamingPattern } from '../naming/naming.ts'

/** Options by rule id, validated by the rules' schemas; `false` where the spec switches a rule off. */
export type Settings = Readonly<Record<string, unknown>>

/** A validated, frozen brand spec. */
export interface Spec {
  /** Path of the spec as the user gave it, for messages. */
  readonly file: string
  readonly brand: string
  readonly version: number
  readonly naming: NamingPattern | null
  /** Settings for every file. */
  readonly settings: Settings
  /** What each deliverable sets differently, by its name; a rule's options replace the general ones whole. */
  readonly deliverables: Readonly<Record<string, Settings>>
  /** Path of the waivers from the spec's folder, as written; null when there are none. */
  readonly waivers: string | null
  /** Ids of rules whose failures are warnings. */
  readonly advisory: readonly string[]
}
