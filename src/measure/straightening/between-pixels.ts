import { type FillLine, rangeOf } from './fill-line.ts'

/**
 * Positions that are read together, px, and how far from the line every px is read: beyond `soon` every second, and beyond `later` every third.
 * @choice enough for a mean over grain, and no more than a lapel is wide; grain needs the first px, clothes don't; no source
 */
export const PLACES = { size: 16, soon: 6, later: 20 } as const

/** The first position that is read along a line, and how many bins follow. */
export function binsOf(line: FillLine, length: number): { readonly first: number; readonly bins: number } {
  const { from, to } = rangeOf(line, length)
  const first = Math.ceil(from)
  return { first, bins: Math.max(0, Math.floor((to - first) / PLACES.size)) }
}
