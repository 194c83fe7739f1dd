import type { Lab } from '../../color/lab.ts'
import type { LaidPicture } from '../../kernels/edges.ts'
import { upperMedian } from '../../numbers/quantile.ts'
import { MAD_TO_SIGMA } from '../../numbers/robust.ts'
import type { Backdrop } from '../backdrop/backdrop.ts'
import { type Jump, jumpsAt, PIECE } from './edge-jump.ts'
import type { FrameLine } from './frame-line.ts'
import { dot, isBackdropInside, staysBehind } from './line-sides.ts'

/** An edge of the backdrop along a line. */
export interface BackdropEdge {
  /** Of the color from the inner to the outer side, ΔE*ab. */
  readonly jump: number
  /** Where it begins and ends, as positions along the line. */
  readonly from: number
  readonly to: number
}

/**
 * Least jump that counts, ΔE*ab.
 * @tuned on the backdrop-edge composites of docs/validation.md: an edge of 3 L* keeps 2 after its own blur
 */
const LEAST_JUMP = 1.5
/**
 * Standard errors that the jump must exceed.
 * @tuned on the backdrop-edge negatives of docs/validation.md: grain alone reaches 3
 */
const SURE_ERRORS = 5
/**
 * Share of the median jump from which on a piece of the line belongs to the edge.
 * @choice half-way between the edge and none
 */
const SAME = 0.5
/**
 * Share of the pieces in sight that must.
 * @tuned on the backdrop-edge composites and negatives of docs/validation.md: all edges are found, and no others
 */
const MOST_PIECES = 0.8
/** Least length of an edge, and of it in sight, px at working size. @choice shorter ones cut off a corner that nobody sees */
export const LEAST_LENGTH = 40
/** Least share of the line in sight. @choice the rest may run behind the sitter, and most of it then does */
const IN_SIGHT = 0.4
/** How far beside the edge, further in, there must be no such jump, px. @choice beyond the bands on which it is read */
const BESIDE = 14
/**
 * Largest share of the jump that may be found there.
 * @tuned on the backdrop-edge composites and negatives of docs/validation.md: a texture or the slope of a shadow goes on,
 *   an edge does not
 */
const MOST_BESIDE = 0.4
/** Fewest pieces of which that is asked. @choice the median of two is the larger one */
const LEAST_BESIDE = 3
/** Distance from the frame, px, from which an edge is taken to reach it. @choice the last pieces lie partly outside */
const NEAR_FRAME = 3 * PIECE

/** How an edge is read. */
interface EdgeKind {
  /** How much farther from the line its sides are read, px. */
  readonly clear: number
  readonly leastJump: number
  /** Px of it that must show the jump. */
  readonly leastLength: number
}

/** As sharp as the picture is. */
const PLAIN: EdgeKind = { clear: 0, leastJump: LEAST_JUMP, leastLength: LEAST_LENGTH }
/**
 * With a rim, such as the sewn one of a collapsible backdrop, or a little bent.
 * @tuned on rims 4 to 7 px wide drawn on 51 studio portraits, of which 134 of 153 are found so, 101 right beside the line; a bright sky in a photograph
 *   of a package falls off by 4.5 ΔE so far apart, and hair that a tight crop cuts at a corner is 96 px long
 */
const RIMMED: EdgeKind = { clear: 6, leastJump: 6, leastLength: 120 }

/**
 * The edge of the backdrop along a line; null when there is none. Read in pieces: most of those in sight must show the same
 * jump, which must not go on further in, as in a texture or a soft shadow, and must not end right behind the line, as
 * behind a pole or a strand of hair.
 * @param below rows from this one on don't count
 */
export function edgeAlong(
  picture: LaidPicture,
  backdrop: Backdrop,
  line: FrameLine,
  below: number,
): BackdropEdge | null {
  const read = (kind: EdgeKind) => edgeRead(picture, backdrop, line, below, kind)
  return read(PLAIN) ?? read(RIMMED)
}

function edgeRead(
  picture: LaidPicture,
  backdrop: Backdrop,
  line: FrameLine,
  below: number,
  { clear, leastJump, leastLength }: EdgeKind,
): BackdropEdge | null {
  const seen = jumpsInSight(picture, backdrop, line, below, { clear, leastLength })
  const common = commonJump(seen, leastJump)
  if (!common) return null
  const along = seen.filter((_, i) => (common.shares[i] as number) >= SAME).map((jump) => jump.along)
  if (along.length < MOST_PIECES * seen.length || along.length * PIECE < leastLength) return null
  if (jumpsFurtherIn(picture, backdrop, line, along, common, clear)) return null
  if (!staysBehind(picture, line, along, common.median, MOST_PIECES, clear)) return null
  return { jump: common.size, ...endsOf(picture, line, along, common.median, clear) }
}

/** The jumps in the pieces that the sitter does not hide; none when too little of the line is in sight for an edge. */
function jumpsInSight(
  picture: LaidPicture,
  backdrop: Backdrop,
  line: FrameLine,
  below: number,
  { clear, leastLength }: Pick<EdgeKind, 'clear' | 'leastLength'>,
): Jump[] {
  const middles: number[] = []
  let pieces = 0
  for (let along = PIECE / 2; along <= line.length - PIECE / 2; along += PIECE) {
    if (line.y + along * line.dy > below) continue
    pieces++
    if (isBackdropInside(backdrop, line, along, clear)) middles.push(along)
  }
  const isEnough = (count: number) => count * PIECE >= leastLength && count >= IN_SIGHT * pieces
  if (!isEnough(middles.length)) return []
  const seen = jumpsAt(picture, line, middles, clear)
  return isEnough(seen.length) ? seen : []
}

/** A jump that pieces have in common. */
interface CommonJump {
  readonly median: Lab
  /** ΔE*ab. */
  readonly size: number
  /** The part of each piece's jump along the median one, as a share of it: 1 where they are the same. */
  readonly shares: Float32Array
}

/** Null when it is too small to count, or no larger than its standard error allows. */
function commonJump(jumps: readonly Jump[], least: number): CommonJump | null {
  if (jumps.length === 0) return null
  const median = medianJump(jumps)
  const size = Math.hypot(median.L, median.a, median.b)
  const shares = new Float32Array(jumps.length)
  const deviations = new Float32Array(jumps.length)
  for (let k = 0; k < jumps.length; k++) {
    shares[k] = dot(jumps[k] as Jump, median) / size ** 2
    deviations[k] = Math.abs((shares[k] as number) - 1)
  }
  const error = (MAD_TO_SIGMA * size * upperMedian(deviations)) / Math.sqrt(jumps.length)
  return size >= Math.max(least, SURE_ERRORS * error) ? { median, size, shares } : null
}

/** Whether the color goes on jumping beside the edge, further in. */
function jumpsFurtherIn(
  picture: LaidPicture,
  backdrop: Backdrop,
  line: FrameLine,
  along: readonly number[],
  { median, size }: CommonJump,
  clear: number,
): boolean {
  const beside = BESIDE + 2 * clear
  const inSight = along.filter((t) => isBackdropInside(backdrop, line, t, beside))
  const jumps = jumpsAt(picture, line, inSight, clear, beside)
  return jumps.length >= LEAST_BESIDE && dot(medianJump(jumps), median) > MOST_BESIDE * size ** 2
}

/** The edge's ends: the frame where the edge comes near it, else the last piece that shows it. */
function endsOf(
  picture: LaidPicture,
  line: FrameLine,
  along: readonly number[],
  median: Lab,
  clear: number,
): { from: number; to: number } {
  const from = Math.min(...along)
  let to = Math.max(...along)
  for (let t = to + PIECE; t <= line.length - PIECE / 2; t += PIECE) {
    const [jump] = jumpsAt(picture, line, [t], clear)
    if (!jump || dot(jump, median) < SAME * dot(median, median)) break
    to = t
  }
  return { from: from < NEAR_FRAME ? 0 : from, to: to > line.length - NEAR_FRAME ? line.length : to }
}

function medianJump(jumps: readonly Jump[]): Lab {
  const L = new Float32Array(jumps.length)
  const a = new Float32Array(jumps.length)
  const b = new Float32Array(jumps.length)
  for (let k = 0; k < jumps.length; k++) {
    const jump = jumps[k] as Jump
    L[k] = jump.L
    a[k] = jump.a
    b[k] = jump.b
  }
  return { L: upperMedian(L), a: upperMedian(a), b: upperMedian(b) }
}
