import type { Limits } from '../numbers/limits.ts'
import type { Size } from './ask.ts'
import { isEmpty } from './axis.ts'

/** A picture that was turned about its middle on a canvas that grew to hold it: its corners stick out of what it covers. */
export interface Turned {
  /** Positive clockwise, under 90 either way. */
  readonly deg: number
  /** Before the turn. */
  readonly picture: Size
  readonly canvas: Size
}

/** Where the turned picture ends is half canvas; so far inside of it a crop stays, px. @choice one pixel of interpolation, no source. */
const EDGE_PX = 1

/** Of a picture turned by so many degrees, positive clockwise. */
export function turnedBy(deg: number, picture: Size): Turned {
  const { cos, sin } = axesOf(deg)
  const { widthPx: w, heightPx: h } = picture
  const across = w * cos + h * Math.abs(sin)
  const down = w * Math.abs(sin) + h * cos
  return { deg, picture, canvas: { widthPx: Math.floor(across), heightPx: Math.floor(down) } }
}

/** Where a place of the picture, px, lies on the canvas. */
export function placeOn(
  { deg, picture, canvas }: Turned,
  { x, y }: { readonly x: number; readonly y: number },
) {
  const { cos, sin } = axesOf(deg)
  const [across, down] = [x - picture.widthPx / 2, y - picture.heightPx / 2]
  return {
    x: canvas.widthPx / 2 + across * cos - down * sin,
    y: canvas.heightPx / 2 + across * sin + down * cos,
  }
}

/** Where a place of the canvas, px, lies on the picture before the turn. */
export function placeBefore(
  { deg, picture, canvas }: Turned,
  { x, y }: { readonly x: number; readonly y: number },
) {
  const { cos, sin } = axesOf(deg)
  const [across, down] = [x - canvas.widthPx / 2, y - canvas.heightPx / 2]
  return {
    x: picture.widthPx / 2 + across * cos + down * sin,
    y: picture.heightPx / 2 - across * sin + down * cos,
  }
}

/** How large the picture must be beside what it is for a crop of the canvas to lie in it, wherever its middle is: 1 where it just fits. */
export function scaleToHold({ deg, picture }: Turned, { widthPx, heightPx }: Size): number {
  const { cos, sin } = axesOf(deg)
  const [across, down] = [widthPx * cos + heightPx * Math.abs(sin), widthPx * Math.abs(sin) + heightPx * cos]
  const edges = deg === 0 ? 0 : 2 * EDGE_PX
  return Math.max(across / (picture.widthPx - edges), down / (picture.heightPx - edges))
}

/**
 * The starts of a crop within limits for which it lies in the turned picture: one row of them, as near to the middle of the
 * limits as can be; null when there is none. A rectangle lies in a turned one when its middle, in the axes of that, is nearer to the middle of
 * that by half its own extent along each axis.
 */
export function startsIn(
  { deg, picture, canvas }: Turned,
  { widthPx, heightPx }: Size,
  left: Limits,
  top: Limits,
): { readonly left: Limits; readonly top: Limits } | null {
  const { cos, sin } = axesOf(deg)
  const across = (picture.widthPx - widthPx * cos - heightPx * Math.abs(sin)) / 2 - EDGE_PX
  const down = (picture.heightPx - widthPx * Math.abs(sin) - heightPx * cos) / 2 - EDGE_PX
  if (across < 0 || down < 0) return null
  const corner = { x: (widthPx - canvas.widthPx) / 2, y: (heightPx - canvas.heightPx) / 2 }
  for (const row of fromTheMiddle(top)) {
    const y = row + corner.y
    // -across <= x cos + y sin <= across; -down <= y cos - x sin <= down
    const ends = [(y * cos - down) / sin, (y * cos + down) / sin]
    const min = Math.max((-across - y * sin) / cos, Math.min(...ends)) - corner.x
    const max = Math.min((across - y * sin) / cos, Math.max(...ends)) - corner.x
    const starts = {
      min: Math.max(left.min, Math.ceil(min) + 0),
      max: Math.min(left.max, Math.floor(max) + 0),
    }
    if (!isEmpty(starts)) return { left: starts, top: { min: row, max: row } }
  }
  return null
}

/** Whole numbers within limits, those in the middle first. */
function* fromTheMiddle({ min, max }: Limits): Generator<number> {
  const middle = Math.floor((min + max) / 2)
  for (let off = 0; middle + off <= max || middle - off >= min; off++) {
    if (middle + off <= max) yield middle + off
    if (off > 0 && middle - off >= min) yield middle - off
  }
}

function axesOf(deg: number): { readonly cos: number; readonly sin: number } {
  const angle = (deg * Math.PI) / 180
  return { cos: Math.cos(angle), sin: Math.sin(angle) }
}
