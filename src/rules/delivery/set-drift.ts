import { OUTLIER_SCORE, robust, score } from '../../numbers/robust.ts'
import { twoGroups } from '../../numbers/two-groups.ts'
import type { DeliveredFile } from '../contract/delivery-rule.ts'
import type { Miss } from './set-misses.ts'
import { TRAITS, type Trait, type TraitId, type Traits } from './set-traits.ts'

/** A file with what it is compared by. */
export interface Compared {
  readonly file: DeliveredFile
  readonly traits: Traits
}

/** A set that has drifted into two groups. */
export interface Drift {
  /** The group to be changed, which is the smaller one, and the other. */
  readonly few: readonly Compared[]
  readonly many: readonly Compared[]
  /** The smaller group's median beside the larger group's, by trait, the farthest apart first. */
  readonly misses: readonly Miss[]
}

/** Fewest portraits of a group. @choice fewer are reported one by one; common practice, no source. */
const FEWEST = 5

/** Fewest portraits of a set in which two groups are looked for. @choice smaller sets fall into two groups by chance. */
const ENOUGH = 12

/**
 * Standard deviations between the medians of two groups from which on they are two.
 * @tuned on random sets of 12 to 40 values from one distribution (normal, uniform, exponential, Student's t with 3 degrees of freedom):
 * of the best splits, 1 % are 4 to 6.5 apart, and of 12 values 0.1 % 6.3 to 9.
 */
const APART = 7

/** Share of the files on the same side from which on two divisions of a set are one. @choice most of them, no source. */
const SAME_DIVISION = 0.9

// What differs from sitter to sitter more than from crop to crop.
const OF_SITTER: readonly TraitId[] = [
  'headroom',
  'head-height',
  'skin-tint-a',
  'skin-tint-b',
  'skin-texture',
]

/** The divisions of a set into two groups that are far apart, each with all traits that divide it so. */
export function driftsOf(set: readonly Compared[], limit: number): Drift[] {
  let divisions = TRAITS.filter(({ id }) => !OF_SITTER.includes(id))
    .flatMap((trait) => dividedBy(trait, set))
    .filter(({ separation }) => separation >= (APART * limit) / OUTLIER_SCORE)
    .sort((a, b) => b.separation - a.separation)
  const drifts: Drift[] = []
  for (let first = divisions[0]; first; first = divisions[0]) {
    const { isLow } = first
    const alike = divisions.filter((one) => agreement(isLow, one.isLow) >= SAME_DIVISION)
    const drift = driftBy(
      isLow,
      alike.map(({ trait }) => trait),
    )
    // Far apart for how alike the groups are in themselves may still be nothing to see.
    if (drift.misses.some(({ off }) => Math.abs(off) > limit)) drifts.push(drift)
    divisions = divisions.filter((one) => !alike.includes(one))
  }
  return drifts
}

type Sides = ReadonlyMap<Compared, boolean>

interface Division {
  readonly trait: Trait
  /** Whether a file is in the lower group; without the files that lack the trait. */
  readonly isLow: Sides
  readonly separation: number
}

function dividedBy(trait: Trait, set: readonly Compared[]): Division[] {
  const valueIn = ({ traits }: Compared) => traits[trait.id]
  const known = set.filter((one) => valueIn(one) !== null)
  if (known.length < ENOUGH) return []
  const groups = twoGroups(
    known.flatMap((one) => valueIn(one) ?? []),
    FEWEST,
  )
  if (!groups?.isApart) return []
  const isLow = new Map(known.map((one) => [one, (valueIn(one) ?? 0) < groups.border]))
  return [{ trait, isLow, separation: groups.separation }]
}

/** Share of the files that two divisions put on the same side, whichever side is called low. */
function agreement(a: Sides, b: Sides): number {
  const both = [...a].filter(([one]) => b.has(one))
  const same = both.filter(([one, low]) => b.get(one) === low).length
  return both.length === 0 ? 0 : Math.max(same, both.length - same) / both.length
}

/** @param traits that which divides the set first, and those that divide it alike */
function driftBy(isLow: Sides, traits: readonly Trait[]): Drift {
  const side = (low: boolean) => [...isLow].flatMap(([one, is]) => (is === low ? [one] : []))
  const bySize = [side(true), side(false)].sort((a, b) => a.length - b.length)
  // A backdrop can't be too even.
  const [few = [], many = []] = traits[0]?.id === UNEVENNESS ? [side(false), side(true)] : bySize
  const known = (group: readonly Compared[], id: TraitId) =>
    group.flatMap(({ traits: found }) => found[id] ?? [])
  const misses = traits.flatMap((trait): Miss[] => {
    const [own, others] = [known(few, trait.id), known(many, trait.id)]
    if (own.length === 0 || others.length === 0) return []
    const [value, set] = [robust(own).median, robust(others)]
    if (trait.id === UNEVENNESS && value < set.median) return []
    // Unlike an outlier, it is not held against the spread of the set.
    return [{ trait, value, set, off: score(value, { median: set.median, spread: 0 }, trait.least) }]
  })
  return { few, many, misses }
}

const UNEVENNESS: TraitId = 'background-unevenness'
