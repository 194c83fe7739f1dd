import type { Limits } from '../numbers/limits.ts'
import { isEmpty, type Polygon, startsOf } from './axis.ts'
import { ratioTolerancePx, type Shape } from './shape.ts'

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
}

/** Rounding of a product, which must not cost a pixel, px. @choice above double precision for edges up to 100,000 px, no source. */
const HAIR = 1e-10

/**
 * The crop of the largest area in whole px, or null when there is none.
 *
 * Width and height are bounded by closed formulas; only the rounding to whole px is walked. The height falls from
 * its highest value, and the width with it, so that the first pair that fits is the largest; each step makes
 * one of them smaller, so there are at most as many steps as px.
 */
export function largestFit({ across, down, shape, tolerance }: CropAxes): Fit | null {
  const widths = whole(across.size, shape.width.min)
  const heights = whole(down.size, shape.height.min)
  let width = widths.max
  for (let height = heights.max; height >= heights.min; height--) {
    const top = startsOf(down, height)
    if (isEmpty(top)) continue
    const allowed = widthsAt(height, shape, tolerance)
    width = Math.min(width, allowed.max)
    while (width >= widths.min && isEmpty(startsOf(across, width))) width--
    if (width < widths.min) return null
    if (width >= allowed.min) return { width, height, left: startsOf(across, width), top }
  }
  return null
}

/** The lowest crop in whole px, and the narrowest of that height; null when there is none. */
export function smallestFit({ across, down, shape, tolerance }: CropAxes): Fit | null {
  const widths = whole(across.size, shape.width.min)
  const heights = whole(down.size, shape.height.min)
  let width = widths.min
  for (let height = heights.min; height <= heights.max; height++) {
    const top = startsOf(down, height)
    if (isEmpty(top)) continue
    const allowed = widthsAt(height, shape, tolerance)
    width = Math.max(width, allowed.min)
    while (width <= widths.max && isEmpty(startsOf(across, width))) width++
    if (width > widths.max) return null
    if (width <= allowed.max) return { width, height, left: startsOf(across, width), top }
  }
  return null
}

function whole({ min, max }: Limits, least: number): Limits {
  return { min: Math.max(least, Math.ceil(min - HAIR)), max: Math.floor(max + HAIR) }
}

/** The widths in whole px that have the shape at this height. */
function widthsAt(height: number, { ratio }: Shape, tolerance: number): Limits {
  const min = ratio.min * height - tolerance * ratioTolerancePx(ratio.min)
  const max = ratio.max * height + tolerance * ratioTolerancePx(ratio.max)
  return { min: Math.max(1, Math.ceil(min - HAIR)), max: Math.floor(max + HAIR) }
}
