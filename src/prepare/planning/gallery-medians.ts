import type { Aim } from '../../framing/aim.ts'
import { median } from '../../numbers/quantile.ts'
import type { GalleryPortrait } from '../../rules/contract/delivery-rule.ts'

const FRAMING = ['headroom', 'eye-line', 'head-height', 'centering'] as const

/** Fewest portraits whose median says how a set is framed. @choice as for `set-match`; common practice, no source. */
const ENOUGH = 8

/** How published portraits of a deliverable are framed; nothing where too few of them tell. */
export function galleryMedians(gallery: readonly GalleryPortrait[] | null, deliverable: string | null): Aim {
  const published = (gallery ?? []).filter(
    (one) => one.deliverable === null || one.deliverable === deliverable,
  )
  const medians = FRAMING.flatMap((trait) => {
    const values = published.flatMap(({ traits }) => traits[trait] ?? [])
    return values.length < ENOUGH ? [] : [[trait, median(values)] as const]
  })
  return Object.fromEntries(medians)
}
