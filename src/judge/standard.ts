import type { Spec } from '../brand-spec/spec.ts'
import type { Roster } from '../people/roster.ts'
import type { GalleryPortrait, KnownBefore } from '../rules/contract/delivery-rule.ts'
import type { Waiver } from '../waivers/waiver.ts'

/** What a delivery is judged by. */
export interface Standard {
  readonly spec: Spec
  readonly roster: Roster | null
  readonly waivers: readonly Waiver[]
  readonly gallery: readonly GalleryPortrait[] | null
}

/** What a standard tells of a delivery before anything is measured. */
export function knownBy({ spec, roster, gallery }: Standard): KnownBefore {
  return { deliverables: Object.keys(spec.deliverables), roster, gallery }
}
