import type { Limits } from '../numbers/limits.ts'
import type { Ratio } from '../numbers/ratio.ts'

/** Size of a picture in whole px. */
export interface Size {
  readonly widthPx: number
  readonly heightPx: number
}

/** Limits in px, both ends included; infinite where nothing is asked. */
export interface SizeLimits {
  readonly width: Limits
  readonly height: Limits
  readonly longEdge: Limits
  readonly shortEdge: Limits
}

/** What a spec asks of the framing, by the id of the rule that asks; absent where it asks nothing. */
export interface FramingAsk {
  readonly 'aspect-ratio'?: Ratio
  readonly 'pixel-size'?: SizeLimits
  /** Crown below the top edge, % of the frame height. */
  readonly headroom?: Limits
  /** Eyes below the top edge, % of the frame height. */
  readonly 'eye-line'?: Limits
  /** Crown to chin, % of the frame height. */
  readonly 'head-height'?: Limits
  /** Mid-eyes from the center, % of the frame width, positive right. */
  readonly centering?: Limits
  /** That what stands at the edge, neither backdrop nor sitter, is left out: from this share of the frame on, in %. */
  readonly 'backdrop-edge'?: { readonly smallestPct: number }
  /** Degrees, positive clockwise. A crop can't fix it: it only says that the picture must be turned first. */
  readonly tilt?: Limits
}

const RULES = [
  'pixel-size',
  'aspect-ratio',
  'backdrop-edge',
  'headroom',
  'eye-line',
  'head-height',
  'centering',
] as const
/** A rule that a crop can meet. */
export type FramingRule = (typeof RULES)[number]

export function askedRules(ask: FramingAsk): FramingRule[] {
  return RULES.filter((rule) => ask[rule] !== undefined)
}
