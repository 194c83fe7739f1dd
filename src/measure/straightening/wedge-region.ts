import type { Side } from '../intrusions/frame-line.ts'
import type { Straightening } from '../schema/measurements.ts'
import { depthAt, type FillLine, type FillLines, rangeOf } from './fill-line.ts'

type Region = Straightening['regions'][number]

/** The smallest box around what lies outside of the line, in shares of the frame; null when nothing does. */
export function regionOf(line: FillLine, side: Side, width: number, height: number): Region | null {
  const lies = side === 'top' || side === 'bottom'
  const [length, across] = lies ? [width, height] : [height, width]
  const { from, to } = rangeOf(line, length)
  const depth = Math.max(depthAt(line, from), depthAt(line, to)) / across
  if (to <= from || depth <= 0) return null
  const span = (to - from) / length
  // Positions run clockwise: along the bottom from the right, along the left from below.
  const start = side === 'top' || side === 'right' ? from / length : 1 - to / length
  const inward = side === 'top' || side === 'left' ? 0 : 1 - depth
  const box = lies
    ? { x: start, y: inward, width: span, height: depth }
    : { x: inward, y: start, width: depth, height: span }
  return { side, box }
}

/** Px of the frame outside of the line. */
export function areaOf(line: FillLine, length: number): number {
  const { from, to } = rangeOf(line, length)
  return ((to - from) * (Math.max(0, depthAt(line, from)) + Math.max(0, depthAt(line, to)))) / 2
}

/** How far beyond the line its blur reaches, px. @choice averaging to working size smears an edge so far; no source. */
const BLUR = 2

/**
 * 1 where a copy of the picture was filled.
 * @param scale px of this copy for each px of that in which the lines were found
 */
export function filledMask(lines: FillLines, width: number, height: number, scale: number): Uint8Array {
  const mask = new Uint8Array(width * height)
  // In the order of the sides: top, right, bottom, left. The first pixel of each, and the steps along it and inward.
  const sides = [
    { first: 0, along: 1, inward: width, length: width, across: height },
    { first: width - 1, along: width, inward: -1, length: height, across: width },
    { first: width * height - 1, along: -1, inward: -width, length: width, across: height },
    { first: width * (height - 1), along: -width, inward: 1, length: height, across: width },
  ]
  for (const [k, { first, along, inward, length, across }] of sides.entries()) {
    const line = lines[k]
    if (!line) continue
    for (let position = 0; position < length; position++) {
      const depth = scale * depthAt(line, (position + 0.5) / scale)
      if (depth <= 0) continue
      for (let d = 0; d < across && d < depth + BLUR; d++) mask[first + position * along + d * inward] = 1
    }
  }
  return mask
}
