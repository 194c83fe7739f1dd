import { type Channels, type ColorStrip, outerPart } from '../../kernels/strips/sides.ts'
import type { Side } from '../intrusions/frame-line.ts'

/**
 * The outer part of a picture along one side. Positions run clockwise round the frame, depths inward from the frame's
 * edge: what straightening leaves then leans the same way on all four sides.
 */
export interface SideStrip extends ColorStrip {
  readonly side: Side
}

/**
 * How deep it is looked, share of the side along which it is measured.
 * @choice 7 degrees, the largest angle that is looked for, are 0.123 of the side; the rest is what lies beyond the edge
 */
const DEPTH = 0.16

/** @param most how deep it is at most, px */
export function sideStrip(picture: Channels, side: Side, most = Number.POSITIVE_INFINITY): SideStrip {
  const { width, height } = picture
  const lies = side === 'top' || side === 'bottom'
  const [length, across] = lies ? [width, height] : [height, width]
  const depth = Math.min(most, Math.round(DEPTH * length), Math.floor(across / 2))
  return { side, ...outerPart(picture, side, depth) }
}
