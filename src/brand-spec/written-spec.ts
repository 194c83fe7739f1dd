import type { NamingSetting } from './content.ts'
import type { PrepareSetting } from './prepare-setting.ts'
import type { Settings } from './spec.ts'

/** A spec that fits its schema, as it is written. */
export interface WrittenSpec {
  readonly brand: string
  readonly version: number
  readonly extends?: string
  readonly naming?: NamingSetting
  readonly deliverables?: Readonly<Record<string, Settings | false | null>>
  readonly waivers?: string
  readonly consent?: string
  readonly masters?: { readonly naming: string }
  readonly prepare?: PrepareSetting
  readonly advisory?: readonly string[]
  readonly [rule: string]: unknown
}
