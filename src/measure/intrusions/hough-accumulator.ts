import { castVotes, type EdgePixels, type LineBins } from '../../kernels/edges.ts'

/** A bin that more votes fell into than into any around it: a line x cos(angle) + y sin(angle) = rho. */
export interface HoughPeak {
  /** Of the line's normal, radians, 0 to pi. */
  readonly angle: number
  /** Distance from the middle of the frame, px; negative on the other side of it. */
  readonly rho: number
  /** Sum of the weights. */
  readonly votes: number
}

/** Bins of the angle of the normal over half a turn. @choice one degree each */
const ANGLES = 180
/**
 * Size of the bins of rho, px at working size.
 * @choice finer bins spread the votes of a blurred edge; lines are refined anyway
 */
const RHO_STEP = 2
/**
 * How far the direction of a gradient may be off, bins of angle.
 * @choice grain turns the gradient of a faint edge by a few degrees
 */
const DIRECTION_ERROR = 4
/**
 * How far beyond a line, px, votes still decide whether its bin is a peak.
 * @choice a peak is held against two bins of rho to each side, and as much again is left for those of angle
 */
export const VOTES_REACH = 4 * RHO_STEP

/**
 * Accumulator of the Hough transform for straight lines in normal form, with the middle of the frame as origin (Duda and
 * Hart, Communications of the ACM 15(1), 1972). An edge pixel votes only for the lines that its own gradient is about square
 * to (Ballard, Pattern Recognition 13(2), 1981).
 */
export class HoughAccumulator {
  /** Bins of rho on either side of the middle, and in all. */
  readonly #reach: number
  readonly #rhos: number
  readonly #bins: LineBins
  /** Votes by angle (row) and rho (column). */
  #votes: Float32Array

  constructor(width: number, height: number) {
    this.#reach = Math.ceil(Math.hypot(width, height) / 2 / RHO_STEP)
    this.#rhos = 2 * this.#reach + 1
    const size = ANGLES * this.#rhos
    this.#votes = new Float32Array(size)
    this.#bins = {
      middle: { x: width / 2, y: height / 2 },
      angles: ANGLES,
      near: DIRECTION_ERROR,
      step: RHO_STEP,
      normals: normalsFor(this.#rhos, this.#reach),
      size,
    }
  }

  /** Takes the votes of edge pixels for the lines through their middles, in place of those before. */
  vote(edges: EdgePixels): void {
    this.#votes = castVotes(edges, this.#bins)
  }

  /** The bins with at least so many votes that stand above all others within two bins, by angle and then by rho. */
  peaks(least: number): HoughPeak[] {
    const peaks: HoughPeak[] = []
    for (let angle = 0; angle < ANGLES; angle++) {
      for (let bin = 0; bin < this.#rhos; bin++) {
        const votes = this.#votes[angle * this.#rhos + bin] as number
        if (votes < least || !this.#isPeak(angle, bin, votes)) continue
        peaks.push({ angle: (angle * Math.PI) / ANGLES, rho: (bin - this.#reach) * RHO_STEP, votes })
      }
    }
    return peaks
  }

  /** Of equal neighbors the first is the peak. */
  #isPeak(angle: number, bin: number, votes: number): boolean {
    for (let da = -2; da <= 2; da++) {
      for (let dr = -2; dr <= 2; dr++) {
        const other = this.#votesAt(angle + da, bin + dr)
        if (other > votes || (other === votes && (da < 0 || (da === 0 && dr < 0)))) return false
      }
    }
    return true
  }

  /** None beyond the ends of rho. A normal turned by half a turn is that of the same line, with the other sign of rho. */
  #votesAt(angle: number, bin: number): number {
    const isTurned = angle < 0 || angle >= ANGLES
    const row = isTurned ? (angle + ANGLES) % ANGLES : angle
    const column = isTurned ? this.#rhos - 1 - bin : bin
    if (column < 0 || column >= this.#rhos) return Number.NEGATIVE_INFINITY
    return this.#votes[row * this.#rhos + column] as number
  }
}

/** Bins of the directions of normals, from `DIRECTION_ERROR` below minus half a turn to as many above half a turn. */
const DIRECTIONS = Array.from(
  { length: 2 * (ANGLES + DIRECTION_ERROR) + 1 },
  (_, i) => (i - DIRECTION_ERROR + ANGLES) % ANGLES,
)
const COSINES = DIRECTIONS.map((bin) => Math.cos((bin * Math.PI) / ANGLES))
const SINES = DIRECTIONS.map((bin) => Math.sin((bin * Math.PI) / ANGLES))

/** Their cosines, their sines, and where in the votes the bins of rho 0 are. */
function normalsFor(rhos: number, reach: number): Float64Array {
  return Float64Array.from([...COSINES, ...SINES, ...DIRECTIONS.map((bin) => bin * rhos + reach)])
}
