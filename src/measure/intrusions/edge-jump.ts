import type { Lab } from '../../color/lab.ts'
import { BAND, bandSums, type LaidPicture } from '../../kernels/edges.ts'
import type { FrameLine } from './frame-line.ts'

/** The color jump across a piece of a line: from the inner to the outer side, in CIELAB, gradients taken off. */
export interface Jump {
  readonly L: number
  readonly a: number
  readonly b: number
  /** Middle of the piece, as a position along the line. */
  readonly along: number
}

/** From how far beside the line it is read, px at working size. @choice what is nearer may be the edge's own blur. */
const NEAR = 3

/** To how far beside the line it is read, px at working size. @choice room for a slope, and no more than a strip of wall has; no source. */
const FAR = 9

/** Fewest samples across with which a band has a slope of its own. @choice no source: of four the noise makes a slope. */
const SLOPED = 5

/** Length of the pieces that a line is read in, px at working size. @choice a piece is covered by hair or a button whole or not at all, no source. */
export const PIECE = 12

/**
 * The jumps in the pieces of a line around some places. Each side is averaged over the piece; the slope that both sides share is taken off, so that a
 * fall-off of light or a soft shadow is no jump. None is told where a side has no pixels.
 * @param middles positions along the line
 * @param clear how much farther from the line both sides are read, px: what lies between them is the edge itself
 * @param shift moves the line towards its inner side, in pixels
 */
export function jumpsAt(
  picture: LaidPicture,
  line: FrameLine,
  middles: readonly number[],
  clear: number,
  shift = 0,
): Jump[] {
  const pieces = new Float64Array(middles.length)
  for (let k = 0; k < pieces.length; k++) pieces[k] = (middles[k] as number) - PIECE / 2
  const sums = bandSums(picture, line, pieces, { length: PIECE, shift, from: NEAR + clear, to: FAR + clear })
  const jumps: Jump[] = []
  for (let k = 0; k < pieces.length; k++) {
    const inner = bandIn(sums, 2 * k)
    const outer = bandIn(sums, 2 * k + 1)
    if (inner.n > 0 && outer.n > 0) jumps.push(jumpBetween(inner, outer, middles[k] as number))
  }
  return jumps
}

function jumpBetween(inner: Band, outer: Band, along: number): Jump {
  const across = outer.d / outer.n - inner.d / inner.n
  const slope = sharedSlope(inner, outer)
  const [p, q] = [meanOf(inner), meanOf(outer)]
  return {
    L: q.L - p.L - slope.L * across,
    a: q.a - p.a - slope.a * across,
    b: q.b - p.b - slope.b * across,
    along,
  }
}

/** The mean of the slopes on both sides, of one side where only that has one, or none. */
function sharedSlope(inner: Band, outer: Band): Lab {
  if (!isSloped(inner)) return isSloped(outer) ? slopeOf(outer) : { L: 0, a: 0, b: 0 }
  if (!isSloped(outer)) return slopeOf(inner)
  const [p, q] = [slopeOf(inner), slopeOf(outer)]
  return { L: (p.L + q.L) / 2, a: (p.a + q.a) / 2, b: (p.b + q.b) / 2 }
}

/** Index of the pixel at a position along the line and a distance towards its inner side; -1 outside the frame. */
export function indexAt(
  line: FrameLine,
  along: number,
  inward: number,
  width: number,
  height: number,
): number {
  const x = line.x + along * line.dx + inward * line.nx
  const y = line.y + along * line.dy + inward * line.ny
  if (!(x >= 0 && y >= 0 && x < width && y < height)) return -1
  // Bits, not `Math.floor`, which takes longer: of numbers that are no less than 0 it is the same.
  return (y | 0) * width + (x | 0)
}

/** Sums over one side of a line, for the mean and the slope of each plane across it. */
interface Band {
  readonly n: number
  /** Of distances from the line, towards its inner side, and of their squares. */
  readonly d: number
  readonly dd: number
  readonly L: number
  readonly a: number
  readonly b: number
  /** Of products with the distance. */
  readonly crossL: number
  readonly crossA: number
  readonly crossB: number
  /** Bit n is set when there are samples n pixels away. */
  readonly distances: number
}

/** Of the sums of several sides, those of one. */
function bandIn(sums: Float64Array, side: number): Band {
  const at = BAND * side
  return {
    n: sums[at] as number,
    d: sums[at + 1] as number,
    dd: sums[at + 2] as number,
    L: sums[at + 3] as number,
    a: sums[at + 4] as number,
    b: sums[at + 5] as number,
    crossL: sums[at + 6] as number,
    crossA: sums[at + 7] as number,
    crossB: sums[at + 8] as number,
    distances: sums[at + 9] as number,
  }
}

function meanOf({ n, L, a, b }: Band): Lab {
  return { L: L / n, a: a / n, b: b / n }
}

function isSloped({ distances }: Band): boolean {
  let count = 0
  for (let rest = distances; rest !== 0; rest &= rest - 1) count++
  return count >= SLOPED
}

/** Least squares slope across the line, per pixel. */
function slopeOf({ n, d, dd, L, a, b, crossL, crossA, crossB }: Band): Lab {
  const spread = dd - (d * d) / n
  if (!(spread > 0)) return { L: 0, a: 0, b: 0 }
  return {
    L: (crossL - (d * L) / n) / spread,
    a: (crossA - (d * a) / n) / spread,
    b: (crossB - (d * b) / n) / spread,
  }
}
