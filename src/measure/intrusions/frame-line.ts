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

/** Where they stand there. @choice definition */
const [TOP, RIGHT, BOTTOM, LEFT] = [0, 1, 2, 3] as const

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
  if (findCrossings(cos, sin, rho, width, height) !== 2) return null
  const last = isBefore(1, 0) ? 0 : 1
  const first = 1 - last
  const [x, y] = [XS[first] as number, YS[first] as number]
  const [alongX, alongY] = [(XS[last] as number) - x, (YS[last] as number) - y]
  const length = Math.hypot(alongX, alongY)
  if (length < 1) return null
  const sign = (inside.x - width / 2) * cos + (inside.y - height / 2) * sin >= rho ? 1 : -1
  return {
    x,
    y,
    dx: alongX / length,
    dy: alongY / length,
    nx: sign * cos,
    ny: sign * sin,
    length,
    from: SIDES[CROSSED[first] as number] as Side,
    to: SIDES[CROSSED[last] as number] as Side,
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

/** Places at which a line meets the frame. @choice definition: one on each side at the most */
const MOST_CROSSINGS = 4
// Thousands of lines are looked at in each picture: no objects are made for the places of one.
const [XS, YS] = [new Float64Array(MOST_CROSSINGS), new Float64Array(MOST_CROSSINGS)]
const CROSSED = new Uint8Array(MOST_CROSSINGS)

function isBefore(p: number, q: number): boolean {
  const [px, py, qx, qy] = [XS[p] as number, YS[p] as number, XS[q] as number, YS[q] as number]
  return py < qy || (py === qy && px < qx)
}

/** Finds where the line meets the frame, on different sides. @returns at how many places */
function findCrossings(cos: number, sin: number, rho: number, width: number, height: number): number {
  const [halfX, halfY] = [width / 2, height / 2]
  let found = 0
  if (Math.abs(cos) > NOTHING) {
    found = addCrossing(found, TOP, (rho + halfY * sin) / cos, -halfY, halfX, halfY)
    found = addCrossing(found, BOTTOM, (rho - halfY * sin) / cos, halfY, halfX, halfY)
  }
  if (Math.abs(sin) > NOTHING) {
    found = addCrossing(found, LEFT, -halfX, (rho + halfX * cos) / sin, halfX, halfY)
    found = addCrossing(found, RIGHT, halfX, (rho - halfX * cos) / sin, halfX, halfY)
  }
  return found
}

/** Adds a crossing that lies in the frame and is none of those found. @param x, y px from its middle @returns how many there are then */
function addCrossing(
  found: number,
  side: number,
  x: number,
  y: number,
  halfX: number,
  halfY: number,
): number {
  if (Math.abs(x) > halfX + NOTHING || Math.abs(y) > halfY + NOTHING) return found
  for (let k = 0; k < found; k++)
    if (Math.hypot((XS[k] as number) - x - halfX, (YS[k] as number) - y - halfY) < SAME_PLACE) return found
  XS[found] = x + halfX
  YS[found] = y + halfY
  CROSSED[found] = side
  return found + 1
}

/** How far beyond the frame is still on its edge, px. @choice what is smaller is left from rounding. */
const NOTHING = 1e-9

/** How far apart two crossings are one, px: a line through a corner crosses two edges there. @choice above rounding, below a pixel. */
const SAME_PLACE = 1e-6
