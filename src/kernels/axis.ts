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
  /** An even number. */
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
  const masks: Mask[] = []
  for (let place = 0; place <= PLACES; place++) masks.push(triangle(shrink, count, place / PLACES))
  const most = Math.max(...masks.map(({ weights }) => weights.length))
  const taps = 2 * Math.ceil(most / 2)
  const starts = new Int32Array(length)
  const weights = new Int16Array(length * taps)
  // What the copy covers more than there is, on both sides alike.
  const beyond = (length * whole - size) / block / 2
  for (let i = 0; i < length; i++) {
    const place = (i + 0.5) * shrink - beyond
    const start = Math.floor(place)
    const mask = masks[Math.floor((Math.floor(place * PLACES * 2) - start * PLACES * 2 + 1) / 2)] as Mask
    starts[i] = start - (Math.ceil(count / 2) - 1) + mask.first
    weights.set(mask.weights, i * taps)
  }
  return { block, blocks: Math.ceil(size / block), length, starts, weights, taps }
}

/** The block at a place, or the nearest. */
export function within(place: number, { blocks }: Axis): number {
  return Math.min(blocks - 1, Math.max(0, place))
}

/** Weights without those at either end that are nothing, and which of all of them is the first. */
interface Mask {
  readonly first: number
  readonly weights: Int16Array
}

/** Weights, 1 in all, that fall to nothing at a distance of `shrink`. @param at the middle, from the middle one of them, 0..1 */
function triangle(shrink: number, count: number, at: number): Mask {
  const middle = at + count / 2 - 1
  const heights = new Float64Array(count)
  let sum = 0
  for (let i = 0; i < count; i++) {
    heights[i] = Math.max(0, 1 - Math.abs((i - middle) / shrink))
    sum += heights[i] as number
  }
  const weights = Int16Array.from(heights, (height) => (height / sum) * ONE)
  const first = weights.findIndex(isSome)
  return { first, weights: weights.subarray(first, weights.findLastIndex(isSome) + 1) }
}

function isSome(weight: number): boolean {
  return weight > 0
}

/** To the nearest whole number, of two the even one. */
function rounded(value: number): number {
  const nearest = Math.round(value)
  return nearest - value === 0.5 && nearest % 2 === 1 ? nearest - 1 : nearest
}
