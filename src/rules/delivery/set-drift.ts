import { OUTLIER_SCORE, robust, score } from '../../numbers/robust.ts'
import { twoGroups } from '../../numbers/two-groups.ts'
import type { DeliveredFile } from '../contract/delivery-rule.ts'
import type { Miss } from './set-misses.ts'
import { TRAITS, type TraitId, type Traits } from './set-traits.ts'

/** A file with what it is compared by. */
export interface Compared {
  readonly file: DeliveredFile
  readonly traits: Traits
}

/** A set that has drifted into two groups. */
export interface Drift {
  /** The smaller group, and the larger. */
  readonly few: readonly Compared[]
  readonly many: readonly Compared[]
  /** The smaller group's median beside the larger group's, by trait, the farthest apart first. */
  readonly misses: readonly Miss[]
}

/** Fewest portraits of a group. @choice fewer are told one by one; common practice, no source. */
const FEWEST = 4

/**
 * Spreads between the medians of two groups from which on they are two.
 * @tuned TODO
 */
const APART = 8

/** Share of the files on the same side from which on two divisions of a set are one. @choice most of them, no source. */
const SAME_DIVISION = 0.9

// What differs from sitter to sitter more than from crop to crop.
const OF_SITTER: readonly TraitId[] = ['headroom', 'head-height']

/** The divisions of a set into two groups that are far apart, each with all traits that divide it so. */
export function driftsOf(set: readonly Compared[], limit: number): Drift[] {
  const divisions = TRAITS.filter(({ id }) => !OF_SITTER.includes(id))
    .flatMap((trait) => {
      const known = set.filter(({ traits }) => traits[trait.id] !== null)
      const values = known.map(({ traits }) => traits[trait.id] as number)
      const groups = twoGroups(values, FEWEST, trait.least)
      if (!groups || groups.separation < (APART * limit) / OUTLIER_SCORE) return []
      const isLow = new Map(known.map((one, i) => [one, (values[i] as number) < groups.border]))
      return [{ trait, isLow, separation: groups.separation }]
    })
    .sort((a, b) => b.separation - a.separation)
  const drifts: Drift[] = []
  while (divisions.length > 0) {
    const [first] = divisions.splice(0, 1) as [(typeof divisions)[number]]
    const alike = divisions.filter(({ isLow }) => agreement(first.isLow, isLow) >= SAME_DIVISION)
    for (const one of alike) divisions.splice(divisions.indexOf(one), 1)
    drifts.push(
      driftBy(
        first.isLow,
        [first, ...alike].map(({ trait }) => trait),
      ),
    )
  }
  return drifts
}

type Division = ReadonlyMap<Compared, boolean>

/** Share of the files that two divisions put on the same side, whichever side is called low. */
function agreement(a: Division, b: Division): number {
  const both = [...a].filter(([one]) => b.has(one))
  const same = both.filter(([one, low]) => b.get(one) === low).length
  return both.length === 0 ? 0 : Math.max(same, both.length - same) / both.length
}

function driftBy(isLow: Division, traits: readonly Miss['trait'][]): Drift {
  const side = (low: boolean) => [...isLow].flatMap(([one, is]) => (is === low ? [one] : []))
  const [few, many] = [side(true), side(false)].sort((a, b) => a.length - b.length) as [
    Compared[],
    Compared[],
  ]
  const known = (group: readonly Compared[], id: TraitId) =>
    group.flatMap(({ traits: found }) => found[id] ?? [])
  const misses = traits.flatMap((trait): Miss[] => {
    const [own, others] = [known(few, trait.id), known(many, trait.id)]
    if (own.length === 0 || others.length === 0) return []
    const [value, set] = [robust(own).median, robust(others)]
    return [{ trait, value, set, off: score(value, set, trait.least) }]
  })
  return { few, many, misses }
}
