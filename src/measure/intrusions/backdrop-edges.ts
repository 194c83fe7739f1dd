import type { LabPlanes } from '../../color/lab.ts'
import { upperMedian } from '../../numbers/quantile.ts'
import { MAD_TO_SIGMA } from '../../numbers/robust.ts'
import type { Backdrop } from '../backdrop/backdrop.ts'
import { type Ground, indexAt, type Jump, jumpAt, PIECE } from './edge-jump.ts'
import { type EdgeRegion, keepLargest, regionBeyond, shareOfBackdrop } from './edge-region.ts'
import { type FrameLine, inwardOf, type Side } from './frame-line.ts'
import { type Sight, searchLines } from './line-search.ts'
import type { SitterRoom } from './sitter-room.ts'

// A side edge of the backdrop stands within this angle of upright, a top edge within it of level.
const LEANING = Math.sin((20 * Math.PI) / 180)
// The least jump that counts, ΔE*ab: an edge of 3 L* keeps 2 after its own blur.
const LEAST_JUMP = 1.5
// Standard errors that the jump must exceed: grain alone reaches 3.
const SURE_ERRORS = 5
// A piece belongs to the edge from this share of the median jump on ...
const SAME = 0.5
// ... and so many of the pieces in sight must.
const MOST_PIECES = 0.8
const LEAST_LENGTH = 40
// The share of the line that must be in sight: the rest may run behind the sitter.
const IN_SIGHT = 0.4
// Beside the edge, further in, there is no such jump: else it is a texture or the slope of a shadow.
const BESIDE = 14
const MOST_BESIDE = 0.4
// Behind the edge, out to here, the color stays another one: else it is a pole or a strand before the backdrop.
const BEHIND = [10, 13, 16]
const STAYS = 0.25
// Behind a strong edge there is hardly any backdrop to see again; behind a raised arm there is.
const MOST_BACKDROP = 0.12

/**
 * Lines along which an edge of the backdrop may run: across an upper corner, down a side, or across the top; clear of the
 * head.
 * @param border indexes of pixels that are backdrop if anything is
 * @param smooth the picture without its grain
 */
export function edgeLines(
  ground: Ground,
  border: Int32Array,
  room: SitterRoom,
  smooth: LabPlanes,
): FrameLine[] {
  const found = searchLines(
    ground,
    border,
    room.midEyes,
    (each) => mayBeEdge(each, room),
    sightOf(room),
    smooth,
  )
  return found.map(({ line }) => line)
}

/** Below the shoulders an edge is not looked at, and it is clear of the head. */
function sightOf({ shoulders, beside, above }: SitterRoom): Sight {
  return { below: Math.ceil(shoulders), clear: Math.min(beside, above) }
}

/**
 * The parts of the frame behind a straight edge that runs from one side of the frame to another, however faint: the
 * border of the backdrop, a corner of the room. An edge may run on behind the sitter.
 * @param lines where edges may run, the likeliest first
 */
export function backdropEdges(
  ground: Ground,
  backdrop: Backdrop,
  lines: readonly FrameLine[],
  room: SitterRoom,
): EdgeRegion[] {
  const regions: EdgeRegion[] = []
  for (const line of lines) {
    const reach = reachOf(ground, backdrop, line, room)
    if (!reach) continue
    const region = regionBeyond(line, reach, backdrop.width, backdrop.height)
    if (
      reach.size > backdrop.threshold &&
      shareOfBackdrop(region, backdrop, 0.5 * reach.size) > MOST_BACKDROP
    )
      continue
    keepLargest(regions, region)
  }
  return regions
}

function mayBeEdge(line: FrameLine, { midEyes, beside, above }: SitterRoom): boolean {
  const { from, to, dx, dy, length } = line
  if (length < LEAST_LENGTH) return false
  const joins = (one: Side, other: Side) => (from === one && to === other) || (from === other && to === one)
  const distance = inwardOf(line, midEyes)
  if (joins('left', 'right')) return Math.abs(dy) < LEANING && line.ny > 0 && distance > above
  if (joins('top', 'bottom')) return Math.abs(dx) < LEANING && distance > beside
  return (from === 'top' || to === 'top') && distance > beside
}

interface Reach {
  /** Of the jump, ΔE*ab. */
  readonly size: number
  readonly from: number
  readonly to: number
}

/** How far along the line the edge can be followed; null when it is no edge of the backdrop. */
function reachOf(ground: Ground, backdrop: Backdrop, line: FrameLine, room: SitterRoom): Reach | null {
  const seen: Jump[] = []
  let pieces = 0
  for (let along = PIECE / 2; along <= line.length - PIECE / 2; along += PIECE) {
    if (line.y + along * line.dy > room.shoulders) continue
    pieces++
    if (isHidden(backdrop, line, along)) continue
    const jump = jumpAt(ground, line, along)
    if (jump) seen.push(jump)
  }
  if (seen.length * PIECE < LEAST_LENGTH || seen.length < IN_SIGHT * pieces) return null
  const usual = medianJump(seen)
  const size = Math.hypot(usual.L, usual.a, usual.b)
  const shares = Float32Array.from(seen, (jump) => dot(jump, usual) / size ** 2)
  const error =
    (MAD_TO_SIGMA * size * upperMedian(shares.map((share) => Math.abs(share - 1)))) / Math.sqrt(seen.length)
  if (!(size >= Math.max(LEAST_JUMP, SURE_ERRORS * error))) return null
  const along = seen.filter((_, i) => (shares[i] as number) >= SAME).map((jump) => jump.along)
  if (along.length < MOST_PIECES * seen.length) return null
  const further = along.flatMap((t) => jumpAt(ground, line, t, BESIDE) ?? [])
  const open = further.filter((jump) => !isHidden(backdrop, line, jump.along, BESIDE))
  if (open.length > 2 && dot(medianJump(open), usual) > MOST_BESIDE * size ** 2) return null
  if (!staysBehind(ground, line, along, usual)) return null
  return { size, ...followed(ground, line, along, usual) }
}

/** The edge's ends: the frame where the edge comes near it, else the last piece that shows it. */
function followed(
  ground: Ground,
  line: FrameLine,
  along: readonly number[],
  usual: Color,
): Omit<Reach, 'size'> {
  let [from, to] = [Math.min(...along), Math.max(...along)]
  for (let t = to + PIECE; t <= line.length - PIECE / 2; t += PIECE) {
    const jump = jumpAt(ground, line, t)
    if (!jump || dot(jump, usual) < SAME * dot(usual, usual)) break
    to = t
  }
  if (from < 3 * PIECE) from = 0
  if (to > line.length - 3 * PIECE) to = line.length
  return { from, to }
}

/** Whether the sitter stands before the inner side of the line: it is not backdrop there. */
function isHidden(backdrop: Backdrop, line: FrameLine, along: number, shift = 0): boolean {
  const { distance, threshold, width, height } = backdrop
  let n = 0
  let sum = 0
  for (let t = along - PIECE / 2; t < along + PIECE / 2; t += 2) {
    for (const away of [4, 6, 8]) {
      const index = indexAt(line, t, shift + away, width, height)
      if (index < 0) continue
      n++
      sum += distance[index] as number
    }
  }
  return n === 0 || sum / n > threshold
}

function staysBehind(
  { lab, width, height }: Ground,
  line: FrameLine,
  along: readonly number[],
  usual: Color,
): boolean {
  let [n, stays] = [0, 0]
  for (const middle of along) {
    const inner = meanAt(middle, 5)
    for (const depth of BEHIND) {
      const outer = meanAt(middle, -depth)
      if (!inner || !outer) continue
      n++
      const jump = { L: outer.L - inner.L, a: outer.a - inner.a, b: outer.b - inner.b }
      if (dot(jump, usual) > STAYS * dot(usual, usual)) stays++
    }
  }
  return stays >= MOST_PIECES * n

  function meanAt(middle: number, inward: number): Color | null {
    let n = 0
    let L = 0
    let a = 0
    let b = 0
    for (let t = middle - PIECE / 2; t < middle + PIECE / 2; t++) {
      for (const away of [inward - 1, inward, inward + 1]) {
        const index = indexAt(line, t, away, width, height)
        if (index < 0) continue
        n++
        L += lab.L[index] as number
        a += lab.a[index] as number
        b += lab.b[index] as number
      }
    }
    return n === 0 ? null : { L: L / n, a: a / n, b: b / n }
  }
}

interface Color {
  readonly L: number
  readonly a: number
  readonly b: number
}

function dot(p: Color, q: Color): number {
  return p.L * q.L + p.a * q.a + p.b * q.b
}

function medianJump(jumps: readonly Jump[]): Color {
  const of = (plane: 'L' | 'a' | 'b') => upperMedian(Float32Array.from(jumps, (jump) => jump[plane]))
  return { L: of('L'), a: of('a'), b: of('b') }
}
