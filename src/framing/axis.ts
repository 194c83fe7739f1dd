import type { Limits } from '../numbers/limits.ts'

/**
 * A place in the picture that the crop must hold between two shares of its own size, wherever it is within its error: with a crop
 * from `start`, `size` long, share.min <= (at - error - start) / size and (at + error - start) / size <= share.max. Shares may be infinite.
 */
export interface Mark {
  /** Px from the left or top edge of the frame. */
  readonly at: number
  /** To either side, px; none when absent. */
  readonly error?: number
  readonly share: Limits
}

/** The demands on a crop along one side, in px of the frame. Start and size are unknown. */
export interface Axis {
  /** Where the crop may begin and must end at the latest. */
  readonly room: Limits
  readonly size: Limits
  readonly marks: readonly Mark[]
}

/** A limit of the start that is linear in the size: at + per * size. */
interface Line {
  readonly at: number
  readonly per: number
}

/** An axis with its limits of the start, lower and upper. Together with `size` they bound a convex polygon of (size, start). */
export interface Polygon {
  readonly size: Limits
  readonly lower: readonly Line[]
  readonly upper: readonly Line[]
}

export function polygonOf({ room, size, marks }: Axis): Polygon {
  const lower = [
    { at: room.min, per: 0 },
    ...marks.map(({ at, error = 0, share }) => ({ at: at + error, per: -share.max })),
  ]
  const upper = [
    { at: room.max, per: -1 },
    ...marks.map(({ at, error = 0, share }) => ({ at: at - error, per: -share.min })),
  ]
  const finite = ({ at, per }: Line) => Number.isFinite(at) && Number.isFinite(per)
  const binding = { lower: lower.filter(finite), upper: upper.filter(finite) }
  return { size: sizesOf(size, binding.lower, binding.upper), ...binding }
}

/**
 * The sizes for which every lower limit of the start is at most every upper one: each pair of lines cuts a half-line
 * off. Empty (min > max) when no size will do.
 */
function sizesOf(size: Limits, lower: readonly Line[], upper: readonly Line[]): Limits {
  let { min, max } = size
  for (const low of lower) {
    for (const high of upper) {
      // low.at + low.per * n <= high.at + high.per * n
      const steeper = low.per - high.per
      const apart = high.at - low.at
      if (steeper > 0) max = Math.min(max, apart / steeper)
      else if (steeper < 0) min = Math.max(min, apart / steeper)
      else if (apart < 0) return { min: Infinity, max: -Infinity }
    }
  }
  return { min, max }
}

/** The whole-pixel starts of a crop of `size` px; empty (min > max) when there is none. */
export function startsOf({ lower, upper }: Polygon, size: number): Limits {
  let [min, max] = [-Infinity, Infinity]
  for (const { at, per } of lower) min = Math.max(min, at + per * size)
  for (const { at, per } of upper) max = Math.min(max, at + per * size)
  // Adding 0 turns -0 into 0.
  return { min: Math.ceil(min) + 0, max: Math.floor(max) + 0 }
}

export function isEmpty({ min, max }: Limits): boolean {
  return min > max
}

export function clamp(value: number, { min, max }: Limits): number {
  return Math.min(Math.max(value, min), max)
}
