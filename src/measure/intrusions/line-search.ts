import { GRAIN } from '../../imaging/smoothing.ts'
import { edgePixels, gradientsAt, type LaidPlanes } from '../../kernels/edges.ts'
import { upperMedian } from '../../numbers/quantile.ts'
import type { Pixel } from '../face/face-axes.ts'
import { type FrameLine, frameLine } from './frame-line.ts'
import { HoughAccumulator, VOTES_REACH } from './hough-accumulator.ts'
import { refinedLine } from './refined-line.ts'

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
export function searchLines(smooth: LaidPlanes, wanted: WantedLines): FrameLine[] {
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
  smooth: LaidPlanes,
  { border, inside, clearance, endRow }: WantedLines,
): void {
  const usual = upperMedian(gradientsAt(smooth, border, GRAIN))
  accumulator.vote(
    edgePixels(smooth, {
      reach: GRAIN,
      first: 1,
      end: Math.min(smooth.height - 1, endRow),
      least: Math.max(LEAST_GRADIENT, MEDIAN_GRADIENTS * usual),
      most: MOST_WEIGHT,
      // Every line through the pixels there passes nearer than the clearance: they can't vote for a wanted one.
      around: { ...inside, radius: Math.max(0, clearance - VOTES_REACH) },
    }),
  )
}
