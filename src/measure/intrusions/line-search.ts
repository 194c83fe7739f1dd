import type { LabPicture } from '../../imaging/lab-picture.ts'
import { upperMedian } from '../../numbers/quantile.ts'
import type { Pixel } from '../face/face-axes.ts'
import { type FrameLine, frameLine } from './frame-line.ts'
import { HoughAccumulator, VOTES_REACH } from './hough-accumulator.ts'
import { refinedLine } from './refined-line.ts'
import { steeperThan, steepestGradient } from './steepest-gradient.ts'

/** What lines are looked for, and where they may show. */
export interface WantedLines {
  /** Indexes of the pixels of the frame's border, where backdrop is expected. */
  readonly border: Int32Array
  /** A point on the inner side of every line: the midpoint between the eyes. */
  readonly inside: Pixel
  readonly isWanted: (line: FrameLine) => boolean
  /** A line that is wanted stays at least this far from `inside`, px. */
  readonly clearance: number
  /** Rows from this one down are not searched. */
  readonly endRow: number
}

/**
 * Least gradient of an edge pixel, ΔE per pixel at working size.
 * @choice an edge of 3 L* that is blurred over 10 px reaches 0.3; half of that leaves room for grain
 */
const LEAST_GRADIENT = 0.15
/**
 * The same in a grainy picture, in median gradients of the backdrop.
 * @tuned on the backdrop-edge composites and negatives of docs/validation.md: all edges are found, and no others
 */
const MEDIAN_GRADIENTS = 2.5
/**
 * Largest weight of a vote, ΔE per pixel.
 * @choice a strong edge has no more weight than a faint one that is well above grain
 */
const MOST_WEIGHT = 0.5
/** Fewest votes of a line, ΔE per pixel: at least eight edge pixels, since MOST_WEIGHT caps each. @choice fewer are a speck */
const LEAST_VOTES = 4
/**
 * Lines that are looked at closely.
 * @tuned on the backdrop-edge composites and negatives of docs/validation.md: no edge is lost; each line costs a fine search
 */
const CANDIDATES = 48

/**
 * Straight edges of any contrast, by a Hough transform, each then refined; those with the best
 * accumulator score first. The votes of grain grow with the root of the line's length; dividing by it makes scores comparable.
 * @param smooth the picture without its grain
 */
export function searchLines(smooth: LabPicture, wanted: WantedLines): FrameLine[] {
  const { width, height } = smooth
  const accumulator = new HoughAccumulator(width, height)
  castVotes(accumulator, smooth, wanted)
  const lineAt = (angle: number, rho: number): FrameLine | null => {
    const line = frameLine(angle, rho, width, height, wanted.inside)
    return line && wanted.isWanted(line) ? line : null
  }
  return accumulator
    .peaks(LEAST_VOTES)
    .flatMap(({ angle, rho, votes }) => {
      const line = lineAt(angle, rho)
      return line ? [{ angle, rho, line, score: votes / Math.sqrt(line.length) }] : []
    })
    .sort((p, q) => q.score - p.score)
    .slice(0, CANDIDATES)
    .map(({ angle, rho, line }) => refinedLine(smooth, { angle, rho, line }, lineAt, wanted.endRow))
}

/** Casts a vote for each pixel whose gradient stands out from the backdrop's, where a wanted line may run through it. */
function castVotes(
  accumulator: HoughAccumulator,
  smooth: LabPicture,
  { border, inside, clearance, endRow }: WantedLines,
): void {
  const { width, height } = smooth
  const least = Math.max(LEAST_GRADIENT, MEDIAN_GRADIENTS * medianGradient(smooth, border))
  const radius = Math.max(0, clearance - VOTES_REACH)
  for (const i of steeperThan(smooth, 1, Math.min(height - 1, endRow), least)) {
    const x = i % width
    const y = Math.floor(i / width)
    // Every line through these pixels passes nearer than the clearance: they can't vote for a wanted one.
    const half = Math.sqrt(Math.max(0, radius * radius - (y + 0.5 - inside.y) ** 2))
    if (Math.abs(x + 0.5 - inside.x) < half) continue
    const { dx, dy, size } = steepestGradient(smooth, x, y)
    if (size >= least) accumulator.vote(x, y, dx, dy, Math.min(MOST_WEIGHT, size))
  }
}

function medianGradient(smooth: LabPicture, border: Int32Array): number {
  const sizes = new Float32Array(border.length)
  for (let k = 0; k < sizes.length; k++) {
    const i = border[k] as number
    sizes[k] = steepestGradient(smooth, i % smooth.width, Math.floor(i / smooth.width)).size
  }
  return upperMedian(sizes)
}
