import type { LaidPicture, LaidPlanes } from '../../kernels/edges.ts'
import type { Backdrop } from '../backdrop/backdrop.ts'
import { edgeAlong, LEAST_LENGTH } from './edge-along.ts'
import { type EdgeRegion, keepLargest, regionBeyond, shareOfBackdrop } from './edge-region.ts'
import { type FrameLine, inwardOf, type Side } from './frame-line.ts'
import { searchLines } from './line-search.ts'
import type { SitterRoom } from './sitter-room.ts'

/**
 * Sine of the largest angle by which a side edge of the backdrop leans, or a top edge slopes.
 * @choice 20 degrees: cameras and paper hang straighter, and what leans more crosses a corner
 */
const MAX_LEAN_SINE = Math.sin((20 * Math.PI) / 180)
/**
 * Largest share of what is beyond a strong edge that may have the backdrop's color.
 * @tuned on the backdrop-edge composites and negatives of docs/validation.md: behind a raised arm the backdrop shows
 *   again, beyond the edge of a backdrop hardly ever
 */
const MOST_BACKDROP = 0.12

/**
 * Lines along which an edge of the backdrop may run: across an upper corner, down a side, or across the top; clear of the
 * head. The likeliest first.
 * @param smooth the picture without its grain
 * @param border indexes of the pixels of the frame's border, where backdrop is expected
 */
export function edgeLines(smooth: LaidPlanes, border: Int32Array, room: SitterRoom): FrameLine[] {
  return searchLines(smooth, {
    border,
    inside: room.midEyes,
    isWanted: (line) => mayBeEdge(line, room),
    clearance: Math.min(room.beside, room.above),
    endRow: Math.ceil(room.shoulders),
  })
}

/**
 * The parts of the frame behind a straight edge that runs from one side of the frame to another, however faint: the
 * border of the backdrop, a corner of the room. An edge may run on behind the sitter.
 * @param lines where edges may run, the likeliest first
 */
export function backdropEdges(
  picture: LaidPicture,
  backdrop: Backdrop,
  lines: readonly FrameLine[],
  room: SitterRoom,
): EdgeRegion[] {
  const regions: EdgeRegion[] = []
  for (const line of lines) {
    const edge = edgeAlong(picture, backdrop, line, room.shoulders)
    if (!edge) continue
    const region = regionBeyond(line, edge, backdrop.width, backdrop.height)
    if (!isBackdropBehind(region, edge.jump, backdrop)) keepLargest(regions, region)
  }
  return regions
}

function mayBeEdge(line: FrameLine, { midEyes, beside, above }: SitterRoom): boolean {
  const { from, to, dx, dy, length } = line
  if (length < LEAST_LENGTH) return false
  const joins = (one: Side, other: Side) => (from === one && to === other) || (from === other && to === one)
  const distance = inwardOf(line, midEyes)
  if (joins('left', 'right')) return Math.abs(dy) < MAX_LEAN_SINE && line.ny > 0 && distance > above
  if (joins('top', 'bottom')) return Math.abs(dx) < MAX_LEAN_SINE && distance > beside
  const crossesUpperCorner = from === 'top' || to === 'top'
  return crossesUpperCorner && distance > beside
}

/**
 * Whether the backdrop's color shows again beyond the edge, so that the edge belongs to something in front of it. An
 * edge fainter than the backdrop's own threshold can't be tested for that and counts as the backdrop's border.
 */
function isBackdropBehind(region: EdgeRegion, jump: number, backdrop: Backdrop): boolean {
  return jump > backdrop.threshold && shareOfBackdrop(region, backdrop, jump / 2) > MOST_BACKDROP
}
