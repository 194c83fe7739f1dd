import { type FillLine, rangeOf } from './fill-line.ts'
import type { SideStrip } from './side-strip.ts'

/**
 * Positions that are read together, px, and how far from the line every px is read: beyond `soon` every second, and beyond `later` every third.
 * @choice enough for a mean over grain, and no more than a lapel is wide; grain needs the first px, clothes don't; no source
 */
export const PLACES = { size: 16, soon: 6, later: 20 } as const

/** A place between two pixels lies at least so far inside of the last, px. @choice above rounding, below what is seen */
const BETWEEN = 0.001

/** The first position that is read along a line, and how many bins follow. */
export function binsOf(line: FillLine, length: number): { readonly first: number; readonly bins: number } {
  const { from, to } = rangeOf(line, length)
  const first = Math.ceil(from)
  return { first, bins: Math.max(0, Math.floor((to - first) / PLACES.size)) }
}

/** Px from one reading to the next across a line that is looked at so far to either side. */
export function stepWithin(reach: number): number {
  return 1 + Number(reach > PLACES.soon) + Number(reach > PLACES.later)
}

/** Gray between pixels; their middles lie at halves inward, and at whole numbers along. */
export function grayAt({ gray, length, depth }: SideStrip, position: number, inward: number): number {
  const y = Math.max(0, Math.min(depth - 1 - BETWEEN, inward - 0.5))
  const x = Math.max(0, Math.min(length - 1 - BETWEEN, position))
  const row = Math.floor(y)
  const column = Math.floor(x)
  const v = y - row
  const u = x - column
  const i = row * length + column
  const upper = (gray[i] as number) * (1 - u) + (gray[i + 1] as number) * u
  const lower = (gray[i + length] as number) * (1 - u) + (gray[i + length + 1] as number) * u
  return upper * (1 - v) + lower * v
}
