/** How an axis of a picture is made shorter: means of blocks first, then weighted sums of those around a place. */
export interface Axis {
  /** Pixels of a block. */
  readonly block: number
  /** How many there are; the last is filled up with the outermost pixel. */
  readonly blocks: number
  /** Pixels that they become. */
  readonly length: number
  /** Of each, the first block that has a say; beyond the ends the outermost one goes on. */
  readonly starts: Int32Array
  /** Of each, `taps` weights, 4096ths. */
  readonly weights: Int16Array
  /** A multiple of four. */
  readonly taps: number
}

/** Factor that is left to the weighted sums at least where blocks come first. @source libvips 8.18, the gap of `vips_resize`. */
const GAP = 2

/** Places between two pixels at which weights are taken, and a weight of 1. @source libvips 8.18: VIPS_TRANSFORM_SCALE and VIPS_INTERPOLATE_SCALE. */
const [PLACES, ONE] = [64, 4096]

/** @param factor by which it is made shorter, but not to less than a pixel */
export function axisOf(size: number, factor: number): Axis {
  const whole = Math.min(factor, size)
  const length = Math.round(size / whole)
  const block = Math.max(1, Math.floor(size / length / GAP))
  const shrink = whole / block
  const count = 2 * rounded(shrink) + 1
  const taps = 4 * Math.ceil(count / 4)
  const starts = new Int32Array(length)
  const weights = new Int16Array(length * taps)
  const masks = Array.from({ length: PLACES + 1 }, (_, place) => triangle(shrink, count, place / PLACES))
  // What the copy covers more than there is, on both sides alike.
  const beyond = (length * whole - size) / block / 2
  for (let i = 0; i < length; i++) {
    const place = (i + 0.5) * shrink - beyond
    const start = Math.floor(place)
    starts[i] = start - (Math.ceil(count / 2) - 1)
    const mask = masks[Math.floor((Math.floor(place * PLACES * 2) - start * PLACES * 2 + 1) / 2)] ?? []
    for (const [k, weight] of mask.entries()) weights[i * taps + k] = weight * ONE
  }
  return { block, blocks: Math.ceil(size / block), length, starts, weights, taps }
}

/** The block at a place, or the nearest. */
export function within(place: number, { blocks }: Axis): number {
  return Math.min(blocks - 1, Math.max(0, place))
}

/** Weights, 1 in all, that fall to nothing at a distance of `shrink`. @param at the middle, from the middle one of them, 0..1 */
function triangle(shrink: number, count: number, at: number): number[] {
  const middle = at + count / 2 - 1
  const heights = Array.from({ length: count }, (_, i) => Math.max(0, 1 - Math.abs((i - middle) / shrink)))
  const sum = heights.reduce((one, other) => one + other)
  return heights.map((height) => height / sum)
}

/** To the nearest whole number, of two the even one. */
function rounded(value: number): number {
  const nearest = Math.round(value)
  return nearest - value === 0.5 && nearest % 2 === 1 ? nearest - 1 : nearest
}
