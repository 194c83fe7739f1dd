import type { Face, PictureSignature } from '../measure/schema/measurements.ts'
import { type Selectable, type Selection, selectable, selectionAmong } from './pair-selection.ts'
import { ready } from './ready-signature.ts'
import { type Sameness, samePicture } from './same-picture.ts'

/** A picture that is looked for among others. */
export interface Pictured {
  readonly signature: PictureSignature | null
  readonly face: Face | null
  /** Whom it shows; null where that isn't known. Two of one person are not compared. */
  readonly person: string | null
  /** The same for files of the same bytes, which are not compared either; null where that isn't known. */
  readonly content: string | null
}

/** Two pictures that are the same, or perhaps, by their indexes. */
export interface AlikePair {
  readonly first: number
  readonly second: number
  readonly sameness: Exclude<Sameness, 'different'>
  readonly isMirrored: boolean
}

/** Looks for pictures that are alike among many, one row of pairs at a time: each with all that come after it. */
export class PairSearch {
  /** Indexes of pictures that can't be compared. */
  readonly unknown: readonly number[]
  readonly #known: readonly (Pictured & { readonly index: number; readonly picture: Selectable })[]
  readonly #select: Selection

  constructor(pictures: readonly Pictured[]) {
    const made = pictures.map((one, index) => {
      const signature = one.signature && ready(one.signature)
      return { ...one, index, picture: signature && selectable(signature, one.face) }
    })
    this.unknown = made.flatMap(({ index, picture }) => (picture ? [] : [index]))
    this.#known = made.flatMap(({ picture, ...one }) => (picture ? [{ ...one, picture }] : []))
    this.#select = selectionAmong(this.#known.map(({ picture }) => picture))
  }

  get rows(): number {
    return this.#known.length
  }

  /** The pairs that are alike of one row. */
  row(at: number): AlikePair[] {
    const one = this.#known[at]
    if (!one) return []
    const { person, content, picture } = one
    const isWanted = (k: number) => {
      const other = this.#known[k]
      return !isSame(person, other?.person) && !isSame(content, other?.content)
    }
    return this.#select(picture, at + 1, isWanted).flatMap((k): AlikePair[] => {
      const other = this.#known[k]
      if (!other) return []
      const { sameness, isMirrored } = samePicture(picture.signature, other.picture.signature)
      if (sameness === 'different') return []
      return [{ first: one.index, second: other.index, sameness, isMirrored }]
    })
  }
}

function isSame(a: string | null, b: string | null | undefined): boolean {
  return a !== null && a === b
}
