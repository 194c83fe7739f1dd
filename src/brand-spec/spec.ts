import type { NamingPattern } from '../naming/naming.ts'
import type { PrepareSetting } from './prepare-setting.ts'

/** Options by rule id, validated by the rules' schemas; `false` where the spec switches a rule off. */
export type Settings = Readonly<Record<string, unknown>>

/** A spec that another one extends. */
interface ExtendedSpec {
  /** Path as the user's own spec leads to it. */
  readonly file: string
  readonly version: number
}

/** A validated, frozen brand spec. */
export interface Spec {
  /** Path of the spec as the user gave it, for messages. */
  readonly file: string
  readonly brand: string
  readonly version: number
  /** The specs that it extends, the nearest first; none when it stands alone. */
  readonly extended: readonly ExtendedSpec[]
  readonly naming: NamingPattern | null
  /** Settings for every file. */
  readonly settings: Settings
  /** What each deliverable sets differently, by its name; a rule's options replace the general ones whole. */
  readonly deliverables: Readonly<Record<string, Settings>>
  /** Path of the waivers from the folder of the spec that names them, as written; null when there are none. */
  readonly waivers: string | null
  /** Paths of the specs, itself or extended ones, that name the roster and the waivers; its own where none does. */
  readonly namedIn: { readonly roster: string; readonly waivers: string }
  /** How masters are named; null where the spec does not say. */
  readonly masters: NamingPattern | null
  /** What files are made with beside the rules; empty where the spec does not say. */
  readonly prepare: PrepareSetting
  /** What sitters are told on location; null when nothing is to be said. */
  readonly consent: string | null
  /** Ids of rules whose failures are warnings. */
  readonly advisory: readonly string[]
}
