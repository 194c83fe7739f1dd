import { mayBeSame, type Selectable, selectable } from '../likeness/pair-selection.ts'
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

/** The approved files that show the same picture as a shown one, the sure ones if there are any. */
export function matchesOf<T>(
  shown: Omit<Candidate<unknown>, 'of'>,
  approved: readonly Candidate<T>[],
): Match<T>[] {
  const { sha256 } = shown.measured
  const same = approved.filter(({ measured }) => sha256 !== null && measured.sha256 === sha256)
  if (same.length > 0) return same.map(({ of }) => ({ of, sameness: 'same', isMirrored: false }))
  const { picture } = shown
  if (!picture) return []
  const matches = approved.flatMap((one): Match<T>[] => {
    if (!one.picture || !mayBeSame(picture, one.picture)) return []
    const { sameness, isMirrored } = samePicture(picture.signature, one.picture.signature)
    if (sameness === 'different') return []
    // Frames of one sitting look alike; only one of them was approved.
    const faces = [shown.measured.face, one.measured.face]
    if (sameFrame(picture.signature, one.picture.signature, faces).sameness === 'different') return []
    return [{ of: one.of, sameness, isMirrored }]
  })
  const sure = matches.filter(({ sameness }) => sameness === 'same')
  return sure.length > 0 ? sure : matches
}
