import type { FaceGeometry } from '../face/face-axes.ts'

/**
 * Error of the crown: a share of the distance between the eyes, since hair has no edge finer than its strands, and px of the copy in
 * which the backdrop is read.
 * @tuned first values
 */
const CROWN = { share: 0.03, px: 1 } as const

/** How far the crown may be off up or down, px of the copy in which the backdrop is read: 95 of 100 are within it. */
export function crownErrorOf({ eyeDistance }: Pick<FaceGeometry, 'eyeDistance'>): number {
  return CROWN.share * eyeDistance + CROWN.px
}
