import type { Limits } from '../numbers/limits.ts'
import { fitsRatio, type Ratio } from '../numbers/ratio.ts'
import type { Size, SizeLimits } from './ask.ts'
import { clamp, isEmpty } from './axis.ts'

/** The sizes a crop may have so that the picture, scaled down if need be, meets aspect ratio and pixel size. */
export interface Shape {
  /** Width over height. */
  readonly ratio: Limits
  /** Of the delivered picture, in whole px; the lower ends are also the least that the crop must have. */
  readonly width: Limits
  readonly height: Limits
}

/** The shapes that meet what is asked: none when aspect ratio and pixel size contradict each other. */
export function shapesFor(ratio: Ratio | undefined, size: SizeLimits | undefined): Shape[] {
  return boxesFor(size).flatMap((box) => {
    const shape = ratio ? withRatio(box, ratio) : box
    return shape && !isEmpty(shape.ratio) && !isEmpty(shape.width) && !isEmpty(shape.height) ? [shape] : []
  })
}

/**
 * How far a crop's width may lie from the exact ratio, in px: as far as the rule `aspect-ratio` lets it, which is 1 px
 * of width or of height.
 */
export function ratioTolerancePx(ratio: number): number {
  return Math.max(1, ratio)
}

/** The size to deliver for a crop of the shape; the crop's own size when that is allowed. */
export function deliveredSize(crop: Size, { ratio, width, height }: Shape): Size {
  if (crop.widthPx <= width.max && crop.heightPx <= height.max) return crop
  const exact = clamp(crop.widthPx / crop.heightPx, ratio)
  const widest = Math.min(crop.widthPx, width.max)
  const highest = Math.min(crop.heightPx, height.max)
  if (widest >= exact * highest) return { widthPx: Math.round(exact * highest), heightPx: highest }
  return { widthPx: widest, heightPx: Math.round(widest / exact) }
}

/** The smallest size of a shape, to the nearest whole px of its ratio. */
export function leastSize({ ratio, width, height }: Shape): Size {
  const heightPx = Math.max(height.min, Math.round(width.min / ratio.max))
  return { widthPx: Math.max(width.min, Math.round(ratio.min * heightPx)), heightPx }
}

/** Any edge, px. @choice definition: an edge has at least one pixel. */
const ANY: Limits = { min: 1, max: Infinity }

/** Pixel sizes by edges as pixel sizes by width and height: an upright picture, a lying one, or either. */
function boxesFor(size: SizeLimits | undefined): Shape[] {
  if (!size) return [shapeOf(ANY, ANY, { min: 0, max: Infinity })]
  const { width, height, longEdge, shortEdge } = size
  const byEdge = [longEdge, shortEdge].some(({ min, max }) => min > 1 || max < Infinity)
  if (!byEdge) return [shapeOf(width, height, { min: 0, max: Infinity })]
  // The long edge is no shorter than the short one may be, and the other way round.
  const long = both(longEdge, { min: shortEdge.min, max: Infinity })
  const short = both(shortEdge, { min: 1, max: longEdge.max })
  return [
    shapeOf(both(width, short), both(height, long), { min: 0, max: 1 }),
    shapeOf(both(width, long), both(height, short), { min: 1, max: Infinity }),
  ]
}

/** Scaling keeps the ratio, so the ratio of the crop must be one that the box allows. */
function shapeOf(width: Limits, height: Limits, upright: Limits): Shape {
  const [least, lowest] = [both(width, ANY), both(height, ANY)]
  const ratio = both({ min: least.min / lowest.max, max: least.max / lowest.min }, upright)
  return { ratio, width: least, height: lowest }
}

/** Null when no size of the box has the ratio to within the pixel that the rule allows. */
function withRatio(box: Shape, asked: Ratio): Shape | null {
  const exact = asked.wide / asked.high
  const nearest = clamp(exact, box.ratio)
  const ratio = { min: nearest, max: nearest }
  if (nearest === exact) return { ...box, ratio }
  // The size at the end of the box's ratios: narrowest and highest, or widest and lowest.
  const [width, height] = exact < nearest ? [box.width.min, box.height.max] : [box.width.max, box.height.min]
  return width / height === nearest && fitsRatio(width, height, asked) ? { ...box, ratio } : null
}

function both(a: Limits, b: Limits): Limits {
  return { min: Math.max(a.min, b.min), max: Math.min(a.max, b.max) }
}
