import { type FillLine, rangeOf } from './fill-line.ts'

/**
 * How far from the line every px is read: beyond `soon` every second, and beyond `later` every third.
 * @choice grain needs the first px, clothes don't; no source
 */
export const PLACES = { soon: 6, later: 20 } as const

/** The first position that is read along a line, and how many bins of so many px follow. */
export function binsOf(
  line: FillLine,
  length: number,
  size: number,
): { readonly first: number; readonly bins: number } {
  const { from, to } = rangeOf(line, length)
  const first = Math.ceil(from)
  return { first, bins: Math.max(0, Math.floor((to - first) / size)) }
}
