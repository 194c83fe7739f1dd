import type { Doubt } from '../measure/schema/measurements.ts'
import type { FramingRule, Size } from './ask.ts'
import type { CropBox } from './crop-box.ts'

/** What a crop has to satisfy: rules of the spec, and what no crop may do. */
export type Demand =
  | FramingRule
  /** The head may not be cut, unless the spec itself asks for less than no headroom. */
  | 'whole-head'

/** Why no crop of the frame meets everything. `demands` can't be met together; without any one of them they could. */
export type Conflict =
  /** The frame ends too soon: by so many px at each side at the least; 0 where there is enough. */
  | {
      readonly kind: 'frame'
      readonly demands: readonly Demand[]
      readonly abovePx: number
      readonly belowPx: number
      readonly leftPx: number
      readonly rightPx: number
    }
  /** The largest crop that meets the rest has fewer pixels than the least that is asked. */
  | {
      readonly kind: 'pixels'
      readonly demands: readonly Demand[]
      readonly available: Size
      readonly asked: Size
    }
  /** Aspect ratio and pixel size contradict each other, or themselves, whatever the picture. */
  | { readonly kind: 'spec'; readonly demands: readonly Demand[] }
  /** The demands contradict each other for this head, in a wider frame too. */
  | { readonly kind: 'demands'; readonly demands: readonly Demand[] }

export interface Crop {
  readonly crop: CropBox
  /** The size to scale the crop down to, when it has more pixels than the spec allows; else null. */
  readonly scaleTo: Size | null
  /** The rules that the crop meets. */
  readonly meets: readonly FramingRule[]
  /** It meets every limit, but without room for an error of measurement. */
  readonly tight: boolean
  /** The head leans more than the spec allows: the picture has to be turned first, which changes the crop. */
  readonly levelFirst: boolean
}

/** A crop, or why there is none; plain JSON. */
export type CropAdvice =
  | Crop
  | { readonly conflicts: readonly Conflict[] }
  /** Head or face were not measured (no doubts), or not with confidence. */
  | { readonly doubts: readonly Doubt[] }
