import { lumaOf } from '../../color/luma.ts'
import type { Side } from '../intrusions/frame-line.ts'

/**
 * The outer part of a picture along one side. Positions run clockwise round the frame, depths inward from the frame's
 * edge: what straightening leaves then leans the same way on all four sides.
 */
export interface SideStrip {
  readonly side: Side
  /** Px along the side, and inward. */
  readonly length: number
  readonly depth: number
  /** R, G and B, one depth after the other: `[depth * length + position]`. */
  readonly planes: readonly [Uint8Array, Uint8Array, Uint8Array]
  /** Their luma, codes: JPEG keeps it better than any of them. */
  readonly luma: Float32Array
}

/**
 * How deep it is looked, share of the side along which it is measured.
 * @choice 7 degrees, the largest angle that is looked for, are 0.123 of the side; the rest is what lies beyond the edge
 */
const DEPTH = 0.16

/** Channels of a color. @choice definition: red, green and blue. */
const CHANNELS = 3

/** Pixels of three channels, or gray ones of one, which then counts as all three. */
export interface Pixels {
  readonly data: Uint8Array
  readonly width: number
  readonly height: number
  readonly isGray?: boolean
}

/** @param most how deep it is at most, px */
export function sideStrip(
  { data, width, height, isGray = false }: Pixels,
  side: Side,
  most = Number.POSITIVE_INFINITY,
): SideStrip {
  const lies = side === 'top' || side === 'bottom'
  const length = lies ? width : height
  const depth = Math.min(most, Math.round(DEPTH * length), Math.floor((lies ? height : width) / 2))
  const size = length * depth
  const planes = [new Uint8Array(size), new Uint8Array(size), new Uint8Array(size)] as const
  const [reds, greens, blues] = planes
  const bytes = isGray ? 1 : CHANNELS
  const [second, third] = isGray ? [0, 0] : [1, 2]
  const [along, inward, start] = steps(side, width, height)
  // In the order in which the pixels lie in memory: along a row of the picture, then to the next one.
  const [lines, pixels] = lies ? [depth, length] : [length, depth]
  const [nextLine, nextPixel] = lies ? [inward, along] : [along, inward]
  const [ownLine, ownPixel] = lies ? [length, 1] : [1, length]
  for (let line = 0; line < lines; line++) {
    let from = bytes * (start + line * nextLine)
    let to = line * ownLine
    for (let pixel = 0; pixel < pixels; pixel++) {
      reds[to] = data[from] as number
      greens[to] = data[from + second] as number
      blues[to] = data[from + third] as number
      from += bytes * nextPixel
      to += ownPixel
    }
  }
  let luma: Float32Array | null = null
  return {
    side,
    length,
    depth,
    planes,
    // Flat fill is read without it.
    get luma() {
      luma ??= lumasOf(planes)
      return luma
    },
  }
}

function lumasOf([reds, greens, blues]: SideStrip['planes']): Float32Array {
  const lumas = new Float32Array(reds.length)
  for (let i = 0; i < lumas.length; i++)
    lumas[i] = lumaOf(reds[i] as number, greens[i] as number, blues[i] as number)
  return lumas
}

/** Pixels from one position to the next, from one depth to the next, and to the first. */
function steps(side: Side, width: number, height: number): [number, number, number] {
  if (side === 'top') return [1, width, 0]
  if (side === 'right') return [width, -1, width - 1]
  if (side === 'bottom') return [-1, -width, width * height - 1]
  return [-width, 1, width * (height - 1)]
}
