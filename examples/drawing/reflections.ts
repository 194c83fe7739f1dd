import type { Rgb } from './color.ts'
import type { Point } from './path.ts'

/** Light that a spectacle lens throws back, hiding the eye behind it. */
export interface LensGlare {
  /** Share of the lens that it covers, 0 to 1. */
  readonly share: number
  /** Lenses that reflect, left and right as seen in the frame. */
  readonly on: 'both' | 'left' | 'right'
  /** The light seen in the lens: an umbrella, a window, or a strip along the lens. */
  readonly shape: 'umbrella' | 'window' | 'strip'
  /** Its middle in mm from the middle of the lens; x outwards, y down. */
  readonly at: Point
  /** White, or what a coating leaves of it. */
  readonly color: Rgb
  /** 0 nothing, 1 nothing is seen through it. */
  readonly opacity: number
}

/** Reflections of the lights on the eyes themselves: wanted. */
export interface Catchlights {
  /** One light, or a second, smaller one below it on the other side; 0 for eyes that no light reaches. */
  readonly count: 0 | 1 | 2
  /** As a multiple of the usual 2.2 x 2.5 mm. */
  readonly size: number
}

export interface Reflections {
  readonly lensGlare: LensGlare | null
  readonly catchlights: Catchlights
}

export const NO_GLARE: Reflections = { lensGlare: null, catchlights: { count: 1, size: 1 } }

/** A white light in the middle of both lenses, a little towards the key light. */
export const PLAIN_GLARE: LensGlare = {
  share: 0,
  on: 'both',
  shape: 'umbrella',
  at: [0, 0],
  color: [255, 255, 255],
  opacity: 0.97,
}
