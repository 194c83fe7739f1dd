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
  /** By so much the frame is turned, positive clockwise; 0 when it is level enough. */
  readonly turnDeg: number
  /** Set when that is more than a frame is turned: the head leans too much, or does so perhaps. */
  readonly tooMuch?: 'surely' | 'perhaps'
}

/** The least turn after which the tilt is surely within its limits, as far as its error allows. */
export function levelingFor({ face }: Measurements, limits: Limits | undefined): Leveling {
  if (!limits || !face || face.tiltDeg === null) return { turnDeg: 0 }
  const { tiltDeg } = face
  const error = DECIDING_SHARE * (face.tiltErrorDeg ?? 0)
  const turnDeg = leastTurn(tiltDeg, limits, error)
  if (Math.abs(turnDeg) <= MOST_LEVELING_DEG) return { turnDeg }
  const leastOfAll = Math.abs(leastTurn(tiltDeg, limits, -error))
  return { turnDeg, tooMuch: leastOfAll > MOST_LEVELING_DEG ? 'surely' : 'perhaps' }
}

/** From a tilt to its limits, narrowed by so much; to the middle of limits that leave nothing then. */
function leastTurn(tiltDeg: number, { min, max }: Limits, narrowed: number): number {
  const [low, high] = [min + narrowed, max - narrowed]
  const wanted = low > high ? (min + max) / 2 : Math.min(Math.max(tiltDeg, low), high)
  return wanted - tiltDeg
}
