import type { Outline } from '../../../imaging/polygon.ts'
import type { LocatedFace } from '../../face/find-faces.ts'
import { outlineOf } from './skin-parts.ts'

/** The same bare skin at both sides of the face. */
export interface MirroredPair {
  readonly left: Outline
  readonly right: Outline
  /** How much of what the light differs between the cheeks it differs here, nearer to the middle of the face, share of it. */
  readonly share: number
}

/**
 * Points of the mesh around each part at the left of the frame and at the right: cheek and cheekbone, half of the forehead, half of the
 * chin; the cheeks first.
 * @choice bare skin on most people, well inside the edge of the face, and the sides of the nose left out, which throws a shadow.
 */
const POINTS = [
  {
    left: [117, 118, 119, 100, 36, 205, 187, 123],
    right: [346, 347, 348, 329, 266, 425, 411, 352],
    share: 1,
  },
  { left: [108, 69, 104, 105, 66, 107], right: [337, 299, 333, 334, 296, 336], share: 0.92 },
  { left: [194, 182, 106, 204, 211, 32], right: [418, 406, 335, 424, 431, 262], share: 0.8 },
] as const

/** The mirrored parts of a face, the cheeks first. */
export function mirroredPairs({ mesh }: LocatedFace): [MirroredPair, ...MirroredPair[]] {
  const [cheeks, ...others] = POINTS.map(({ left, right, share }) => ({
    left: outlineOf(mesh, left),
    right: outlineOf(mesh, right),
    share,
  }))
  return [cheeks as MirroredPair, ...others]
}
