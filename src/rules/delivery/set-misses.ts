import { type Robust, robust, score } from '../../numbers/robust.ts'
import type { DeliveredFile } from '../contract/delivery-rule.ts'
import { isColorless } from '../judging/unseen.ts'
import { TRAITS, type Trait, type TraitId, type Traits } from './set-traits.ts'

/** A trait in which a portrait stands out of its set. */
export interface Miss {
  readonly trait: Trait
  readonly value: number
  readonly set: Robust
  /** Spreads off the median, with sign. */
  readonly off: number
}

/** Median and spread of a set by trait; none of a trait that too few portraits have. */
export type Norms = ReadonlyMap<TraitId, Robust>

/** @param fewest portraits that must have a trait for it to have a norm */
export function normsOf(standard: readonly Readonly<Record<string, number | null>>[], fewest: number): Norms {
  return new Map(
    TRAITS.flatMap(({ id }) => {
      const values = standard.flatMap((traits) => traits[id] ?? [])
      return values.length < fewest ? [] : [[id, robust(values)] as const]
    }),
  )
}

/**
 * Share of what the head is larger or smaller that the face must be, too, for the crop to be the cause and not the hair.
 * @choice half: faces differ less from each other than hair does; common practice, no source
 */
const SAME_SCALE = 0.5

/**
 * What a portrait misses of its set by more than `limit` spreads, the farthest first; only what is the file's and not the sitter's.
 * @param errorsOf finds the errors of the portrait's own traits; what may be off by so much stands out by less
 */
export function missesOf(
  traits: Traits,
  norms: Norms,
  limit: number,
  errorsOf: () => Partial<Record<TraitId, number>> = () => ({}),
): Miss[] {
  const misses = TRAITS.flatMap((trait): Miss[] => {
    const value = traits[trait.id]
    const set = norms.get(trait.id)
    // An error only makes it stand out by less.
    if (value === null || !set || Math.abs(score(value, set, trait.least)) <= limit) return []
    const spread = Math.hypot(Math.max(set.spread, trait.least), errorsOf()[trait.id] ?? 0)
    const off = score(value, { median: set.median, spread })
    return Math.abs(off) > limit ? [{ trait, value, set, off }] : []
  })
  const missed = new Set(misses.map(({ trait }) => trait.id))
  return misses
    .filter(({ trait: { id, side }, off }) => {
      // Big hair takes headroom; the eyes show where the crop lies.
      if (id === 'headroom') return missed.has('eye-line') || traits['eye-line'] === null
      if (id === 'head-height') return isScaled(traits, norms)
      // It only sets hair apart from the crop.
      if (id === 'face-height') return false
      return side === undefined || side === (off < 0 ? 'low' : 'high')
    })
    .sort((a, b) => Math.abs(b.off) - Math.abs(a.off))
}

/** Whether the face is larger or smaller than in the set as the head is; where it was not measured, nothing excuses the head. */
function isScaled(traits: Traits, norms: Norms): boolean {
  const excess = (id: TraitId) => {
    const [value, set] = [traits[id], norms.get(id)]
    return value === null || !set ? null : value / set.median - 1
  }
  const [head, face] = [excess('head-height'), excess('face-height')]
  return head === null || face === null || face / head >= SAME_SCALE
}

/** What of a file is compared: a picture without color has no tint to compare. */
export function comparedOf({ measured }: DeliveredFile, traits: Traits): Traits {
  if (!isColorless(measured)) return traits
  return {
    ...traits,
    ...{ 'background-tint-a': null, 'background-tint-b': null, 'skin-tint-a': null, 'skin-tint-b': null },
  }
}

/** In what a portrait stands out, and to which side: "eye-line low". */
export function traitOf({ trait: { id }, off }: Miss): string {
  return `${id} ${off < 0 ? 'low' : 'high'}`
}
