import { type Selectable, type Selection, selectable, selectionAmong } from '../likeness/pair-selection.ts'
import { ready } from '../likeness/ready-signature.ts'
import { sameFrame, samePicture } from '../likeness/same-picture.ts'
import type { Measurements } from '../measure/schema/measurements.ts'

/** A picture made ready to be compared with many; null when it can't be. */
export function comparable({ signature, face }: Measurements): Selectable | null {
  const made = signature ? ready(signature) : null
  return made && selectable(made, face)
}

export interface Candidate<T> {
  readonly of: T
  readonly measured: Measurements
  readonly picture: Selectable | null
}

export interface Match<T> {
  readonly of: T
  readonly sameness: 'same' | 'perhaps'
  readonly isMirrored: boolean
}

/** Approved files, made ready to be looked for those that show the same picture as another. */
export class Approved<T> {
  readonly candidates: readonly Candidate<T>[]
  readonly #pictured: readonly (Candidate<T> & { readonly picture: Selectable })[]
  readonly #select: Selection

  constructor(candidates: readonly Candidate<T>[]) {
    this.candidates = candidates
    this.#pictured = candidates.flatMap(({ picture, ...one }) => (picture ? [{ ...one, picture }] : []))
    this.#select = selectionAmong(this.#pictured.map(({ picture }) => picture))
  }

  /** Those that show the same picture as a shown one, the sure ones if there are any. */
  matchesOf({ measured, picture }: Omit<Candidate<unknown>, 'of'>): Match<T>[] {
    const { sha256 } = measured
    const same = this.candidates.filter((one) => sha256 !== null && one.measured.sha256 === sha256)
    if (same.length > 0) return same.map(({ of }) => ({ of, sameness: 'same', isMirrored: false }))
    if (!picture) return []
    const matches = this.#select(picture, 0, () => true).flatMap((index): Match<T>[] => {
      const one = this.#pictured[index]
      if (!one) return []
      const { sameness, isMirrored } = samePicture(picture.signature, one.picture.signature)
      if (sameness === 'different') return []
      // Frames of one sitting look alike; only one of them was approved.
      const faces = [measured.face, one.measured.face]
      if (sameFrame(picture.signature, one.picture.signature, faces).sameness === 'different') return []
      return [{ of: one.of, sameness, isMirrored }]
    })
    const sure = matches.filter(({ sameness }) => sameness === 'same')
    return sure.length > 0 ? sure : matches
  }
}
