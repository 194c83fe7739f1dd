import { DECIDING_SHARE } from '../measure/schema/confidence.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import type { Limits } from '../numbers/limits.ts'

/**
 * How far a frame is turned at most to level a head, degrees.
 * @choice common practice, no source: more shows in the shoulders and costs the corners of the frame; whoever leans more is asked to sit up
 */
const MOST_LEVELING_DEG = 5

/** How a head is brought within the limits of its tilt. */
export interface Leveling {
  /**
   * By so much the frame is turned, positive clockwise, what is tried first in front: none when it is level enough, else to the middle of the
   * limits, which leaves room for the error of measuring a smaller file, and the least that will do, which costs least of the corners.
   */
  readonly turnsDeg: readonly number[]
  /** Set when even the least is more than a frame is turned: the head leans too much, or does so perhaps. */
  readonly tooMuch?: 'surely' | 'perhaps'
}

/** The turns after which the tilt is surely within its limits, as far as its error allows. */
export function levelingFor({ face }: Measurements, limits: Limits | undefined): Leveling {
  if (!limits || !face || face.tiltDeg === null) return { turnsDeg: [0] }
  const { tiltDeg } = face
  const error = DECIDING_SHARE * (face.tiltErrorDeg ?? 0)
  const least = leastTurn(tiltDeg, limits, error)
  if (Math.abs(least) > MOST_LEVELING_DEG) {
    const leastOfAll = Math.abs(leastTurn(tiltDeg, limits, -error))
    return { turnsDeg: [least], tooMuch: leastOfAll > MOST_LEVELING_DEG ? 'surely' : 'perhaps' }
  }
  if (least === 0) return { turnsDeg: [0] }
  const wanted = (limits.min + limits.max) / 2 - tiltDeg
  const full = Math.min(Math.max(wanted, -MOST_LEVELING_DEG), MOST_LEVELING_DEG)
  return { turnsDeg: full === least ? [least] : [full, least] }
}

/** From a tilt to its limits, narrowed by so much; to the middle of limits that leave nothing then. */
function leastTurn(tiltDeg: number, { min, max }: Limits, narrowed: number): number {
  const [low, high] = [min + narrowed, max - narrowed]
  const wanted = low > high ? (min + max) / 2 : Math.min(Math.max(tiltDeg, low), high)
  return wanted - tiltDeg
}
