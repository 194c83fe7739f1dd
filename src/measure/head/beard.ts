import type { FacePlace } from '../face/face-axes.ts'
import { type ChinPatch, patchAt } from './chin-patch.ts'

// The patches of the jaw that are looked at, in cells (100 from the eyes to the chin).
const HALF_WIDTH = 8
const HALF_HEIGHT = 6
const ACROSS = 15
// A cell is held against the mean of a ring around it, so that the jaw's own shading cancels out.
const RING = 3.5
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
    const across = middle.across + x * HALF_WIDTH
    const along = middle.along + y * HALF_HEIGHT
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
