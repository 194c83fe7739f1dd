import type { Line } from '../../kernels/edges.ts'
import type { Pixel } from '../face/face-axes.ts'

/** A straight line across the frame, as long as it lies inside; its normal points towards the sitter. */
export interface FrameLine extends Line {
  /** Sides of the frame on which it begins and ends. */
  readonly from: Side
  readonly to: Side
}

export const SIDES = ['top', 'right', 'bottom', 'left'] as const
export type Side = (typeof SIDES)[number]

interface Crossing extends Pixel {
  readonly side: Side
}

/**
 * The part inside the frame of the line x cos + y sin = rho, with the middle of the frame as origin.
 * Begins at its upper end. Null when it misses the frame or only touches it.
 * @param angle of the line's normal, in radians
 * @param inside a point on the inner side
 */
export function frameLine(
  angle: number,
  rho: number,
  width: number,
  height: number,
  inside: Pixel,
): FrameLine | null {
  const cos = Math.cos(angle)
  const sin = Math.sin(angle)
  const ends = crossings(cos, sin, rho, width, height)
  if (!ends) return null
  const [first, last] = isBefore(ends[1], ends[0]) ? [ends[1], ends[0]] : ends
  const length = Math.hypot(last.x - first.x, last.y - first.y)
  if (length < 1) return null
  const sign = (inside.x - width / 2) * cos + (inside.y - height / 2) * sin >= rho ? 1 : -1
  return {
    x: first.x,
    y: first.y,
    dx: (last.x - first.x) / length,
    dy: (last.y - first.y) / length,
    nx: sign * cos,
    ny: sign * sin,
    length,
    from: first.side,
    to: last.side,
  }
}

/** Distance of a point from the line, positive on the inner side. */
export function inwardOf(line: FrameLine, { x, y }: Pixel): number {
  return (x - line.x) * line.nx + (y - line.y) * line.ny
}

/** Position of a point's foot along the line. */
export function alongOf(line: FrameLine, { x, y }: Pixel): number {
  return (x - line.x) * line.dx + (y - line.y) * line.dy
}

function isBefore(p: Pixel, q: Pixel): boolean {
  return p.y < q.y || (p.y === q.y && p.x < q.x)
}

/** Where the line meets the frame: null, or two places on different sides. */
function crossings(
  cos: number,
  sin: number,
  rho: number,
  width: number,
  height: number,
): [Crossing, Crossing] | null {
  const [halfX, halfY] = [width / 2, height / 2]
  const found: Crossing[] = []
  if (Math.abs(cos) > NOTHING) {
    addCrossing(found, 'top', (rho + halfY * sin) / cos, -halfY, halfX, halfY)
    addCrossing(found, 'bottom', (rho - halfY * sin) / cos, halfY, halfX, halfY)
  }
  if (Math.abs(sin) > NOTHING) {
    addCrossing(found, 'left', -halfX, (rho + halfX * cos) / sin, halfX, halfY)
    addCrossing(found, 'right', halfX, (rho - halfX * cos) / sin, halfX, halfY)
  }
  const [first, last] = found
  return first && last && found.length === 2 ? [first, last] : null
}

/** Adds a crossing that lies in the frame and is none of those found. @param x, y px from its middle */
function addCrossing(
  found: Crossing[],
  side: Side,
  x: number,
  y: number,
  halfX: number,
  halfY: number,
): void {
  if (Math.abs(x) > halfX + NOTHING || Math.abs(y) > halfY + NOTHING) return
  for (const other of found) if (Math.hypot(other.x - x - halfX, other.y - y - halfY) < SAME_PLACE) return
  found.push({ side, x: x + halfX, y: y + halfY })
}

/** How far beyond the frame is still on its edge, px. @choice what is smaller is left from rounding. */
const NOTHING = 1e-9

/** How far apart two crossings are one, px: a line through a corner crosses two edges there. @choice above rounding, below a pixel. */
const SAME_PLACE = 1e-6
