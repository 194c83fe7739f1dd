import type { Pixel } from './face.ts'

/** A straight line across the frame, in pixels: a point on it, its direction, and the normal towards the sitter. */
export interface FrameLine {
  readonly x: number
  readonly y: number
  readonly dx: number
  readonly dy: number
  readonly nx: number
  readonly ny: number
  /** Length inside the frame; positions along the line run from 0 to this. */
  readonly length: number
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
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const ends = crossings(cos, sin, rho, width, height)
  const [first, last] = ends.toSorted((p, q) => p.y - q.y || p.x - q.x)
  if (!first || !last) return null
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

/** Where the line meets the frame: none, or two places on different sides. */
function crossings(cos: number, sin: number, rho: number, width: number, height: number): Crossing[] {
  const [halfX, halfY] = [width / 2, height / 2]
  const found: Crossing[] = []
  const add = (side: Side, x: number, y: number) => {
    const inFrame = Math.abs(x) <= halfX + 1e-9 && Math.abs(y) <= halfY + 1e-9
    if (inFrame && !found.some((other) => Math.hypot(other.x - x - halfX, other.y - y - halfY) < 1e-6))
      found.push({ side, x: x + halfX, y: y + halfY })
  }
  if (Math.abs(cos) > 1e-9) {
    add('top', (rho + halfY * sin) / cos, -halfY)
    add('bottom', (rho - halfY * sin) / cos, halfY)
  }
  if (Math.abs(sin) > 1e-9) {
    add('left', -halfX, (rho + halfX * cos) / sin)
    add('right', halfX, (rho - halfX * cos) / sin)
  }
  return found.length === 2 ? found : []
}
