import type { FaceGeometry } from '../face/face-axes.ts'

/**
 * Error of the crown: a share of the distance between the eyes, since hair has no edge finer than its strands, and px of the copy in
 * which the backdrop is read.
 * @tuned on 54 drawn sitters before plain paper, 0.07 % of the frame height off in the mean, and 11 photographs.
 */
const CROWN = { share: 0.005, px: 0.7 } as const

/** How far the crown may be off up or down, px of the copy in which the backdrop is read: 95 of 100 are within it. */
export function crownErrorOf({ eyeDistance }: Pick<FaceGeometry, 'eyeDistance'>): number {
  return CROWN.share * eyeDistance + CROWN.px
}
