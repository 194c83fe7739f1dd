import type { FacePlace } from '../face/face-axes.ts'
import { type ChinPatch, patchAt } from './chin-patch.ts'

/** Half axes of the ellipses of the jaw that are looked at, cells of a hundredth of the way from the eyes to the chin. @choice the flat of the jaw beside the chin, no source. */
const HALF = { width: 8, height: 6 } as const

/** Samples across an ellipse. @choice about one a cell. */
const ACROSS = 15

/** Radius of the ring that a cell is held against, cells. @choice so that the jaw's own shading cancels out and whiskers don't, no source. */
const RING = 3.5

/** Points of the ring. @choice a mean of eight, no source. */
const RING_POINTS = 8

/**
 * How rough the skin is along the jaw: root mean square of what cells differ by from their surroundings in L*, over
 * the mean L*; of the two sides the smoother one, since hair, a hand or the backdrop may be seen beside the other.
 * @param jaws the middles of the patches looked at
 */
export function jawRoughness(patch: ChinPatch, jaws: readonly FacePlace[]): number {
  return Math.min(...jaws.map((jaw) => roughnessAround(patch, jaw)))
}

function roughnessAround(patch: ChinPatch, middle: FacePlace): number {
  const { L } = patch.planes
  let squares = 0
  let sum = 0
  let count = 0
  for (let i = 0; i < ACROSS * ACROSS; i++) {
    const x = (2 * ((i % ACROSS) + 0.5)) / ACROSS - 1
    const y = (2 * (Math.floor(i / ACROSS) + 0.5)) / ACROSS - 1
    if (x * x + y * y > 1) continue
    const across = middle.across + x * HALF.width
    const along = middle.along + y * HALF.height
    let ring = 0
    for (let k = 0; k < RING_POINTS; k++) {
      const angle = (2 * Math.PI * k) / RING_POINTS
      const place = { across: across + RING * Math.cos(angle), along: along + RING * Math.sin(angle) }
      ring += patchAt(L, place) / RING_POINTS
    }
    const cell = patchAt(L, { across, along })
    squares += (cell - ring) ** 2
    sum += cell
    count++
  }
  return Math.sqrt(squares / count) / Math.max(1, sum / count)
}
