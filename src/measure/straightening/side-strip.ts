import { type Channels, outerPart } from '../../kernels/sides.ts'
import type { Side } from '../intrusions/frame-line.ts'

/** Luma along one side of a picture. */
export interface LumaStrip {
  /** Px along the side, and inward. */
  readonly length: number
  readonly depth: number
  /** Sixteenths of a code, one depth after the other: `[depth * length + position]`. */
  readonly luma: Int16Array
}

/**
 * The outer part of a picture along one side. Positions run clockwise round the frame, depths inward from the frame's
 * edge: what straightening leaves then leans the same way on all four sides.
 */
export interface SideStrip extends LumaStrip {
  readonly side: Side
  /** R, G and B, as luma lies. */
  readonly planes: readonly [Uint8Array, Uint8Array, Uint8Array]
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
  return { side, length, depth, ...outerPart(picture, side, depth) }
}

/** The strip of a picture of half the size: means of four pixels. */
export function halved({ luma, length, depth }: LumaStrip): LumaStrip {
  const half = { length: length >> 1, depth: depth >> 1 }
  const means = new Int16Array(half.length * half.depth)
  for (let d = 0, to = 0; d < half.depth; d++) {
    for (let t = 0, at = 2 * d * length; t < half.length; t++, at += 2, to++) {
      const above = (luma[at] as number) + (luma[at + 1] as number)
      const below = (luma[at + length] as number) + (luma[at + length + 1] as number)
      means[to] = (above + below + 2) >> 2
    }
  }
  return { ...half, luma: means }
}
