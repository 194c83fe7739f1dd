import type { Limits } from '../numbers/limits.ts'
import { isEmpty, type Polygon, startsOf } from './axis.ts'
import { ratioTolerancePx, type Shape } from './shape.ts'
import { startsIn, type Turned } from './turned.ts'

/** A crop's size, and where it may start: whole px, both ends included. */
export interface Fit {
  readonly width: number
  readonly height: number
  readonly left: Limits
  readonly top: Limits
}

export interface CropAxes {
  readonly across: Polygon
  readonly down: Polygon
  readonly shape: Shape
  /** Share of the rule's tolerance that may be spent on the ratio, 0..1. */
  readonly tolerance: number
  /** Set where the frame is a turned picture, in which the crop must lie. */
  readonly turned?: Turned | undefined
}

/** Rounding of a product, which must not cost a pixel, px. @choice above double precision for edges up to 100,000 px, no source. */
const HAIR = 1e-10

/**
 * The crop of the largest area in whole px, or null when there is none; in a turned picture the highest one.
 *
 * Width and height are bounded by closed formulas; only the rounding to whole px is walked. The height falls from
 * its highest value, and the width with it, so that the first pair that fits is the largest; each step makes
 * one of them smaller, so there are at most as many steps as px. In a turned picture a lower crop may be wider, so that
 * the width begins anew with each height.
 */
export function largestFit(axes: CropAxes): Fit | null {
  const { across, down, shape, tolerance, turned } = axes
  const widths = whole(across.size, shape.width.min)
  const heights = whole(down.size, shape.height.min)
  let width = widths.max
  for (let height = heights.max; height >= heights.min; height--) {
    const allowed = widthsAt(height, shape, tolerance)
    const least = Math.max(widths.min, allowed.min)
    width = Math.min(turned ? widths.max : width, allowed.max)
    const top = startsOf(down, height)
    if (isEmpty(top)) continue
    for (; width >= least; width--) {
      const starts = startsAt(axes, width, height, top)
      if (starts) return { width, height, ...starts }
    }
    if (width < widths.min && !turned) return null
  }
  return null
}

/** The lowest crop in whole px, and the narrowest of that height; null when there is none. */
export function smallestFit(axes: CropAxes): Fit | null {
  const { across, down, shape, tolerance, turned } = axes
  const widths = whole(across.size, shape.width.min)
  const heights = whole(down.size, shape.height.min)
  let width = widths.min
  for (let height = heights.min; height <= heights.max; height++) {
    const allowed = widthsAt(height, shape, tolerance)
    const most = Math.min(widths.max, allowed.max)
    width = Math.max(turned ? widths.min : width, allowed.min)
    const top = startsOf(down, height)
    if (isEmpty(top)) continue
    for (; width <= most; width++) {
      const starts = startsAt(axes, width, height, top)
      if (starts) return { width, height, ...starts }
    }
    if (width > widths.max && !turned) return null
  }
  return null
}

/** Where a crop of a size may start, of the rows given; null when nowhere. */
export function startsAt(
  { across, turned }: CropAxes,
  width: number,
  height: number,
  top: Limits,
): Pick<Fit, 'left' | 'top'> | null {
  const left = startsOf(across, width)
  if (isEmpty(left)) return null
  return turned ? startsIn(turned, { widthPx: width, heightPx: height }, left, top) : { left, top }
}

export function whole({ min, max }: Limits, least: number): Limits {
  return { min: Math.max(least, Math.ceil(min - HAIR)), max: Math.floor(max + HAIR) }
}

/** The widths in whole px that have the shape at this height. */
export function widthsAt(height: number, { ratio }: Shape, tolerance: number): Limits {
  const min = ratio.min * height - tolerance * ratioTolerancePx(ratio.min)
  const max = ratio.max * height + tolerance * ratioTolerancePx(ratio.max)
  return { min: Math.max(1, Math.ceil(min - HAIR)), max: Math.floor(max + HAIR) }
}
