import type { Measurements } from '../measure/schema/measurements.ts'
import { sideOf } from '../numbers/limits.ts'
import type { FramingAsk, Size } from './ask.ts'
import { clamp } from './axis.ts'
import type { CropBox } from './crop-box.ts'
import { largestCrop, smallestCrops } from './extremes.ts'
import { missingAround, nearestBox, totalMissing } from './missing.ts'
import type { Problem } from './problem.ts'
import type { Rect } from './room.ts'
import { deliveredSize, leastSize, ratioTolerancePx, type Shape, shapesFor } from './shape.ts'
import { leansTooMuch, type Sitter, sitterOf } from './sitter.ts'

export interface BeyondCrop {
  readonly box: CropBox
  /** It meets every limit, but without room for an error of measurement. */
  readonly tight: boolean
  /** The head leans more than the spec allows: the picture has to be turned first, which changes the crop. */
  readonly levelFirst: boolean
  /** The size to deliver it at; null where the spec leaves the box its own. */
  readonly deliverAt: Size | null
}

/** Shares of the safety margin that are tried. @choice all of it, half, none; no source. */
const MARGINS = [1, 0.5, 0]

/**
 * The crop that meets everything asked where the frame itself holds none: the frame moved; else one that reaches as
 * little beyond it as can be; else one within it of fewer px than asked, for which the original has to be larger; else one
 * that does both. Null when there is none of them, or the sitter was not measured.
 */
export function solveBeyond(
  measured: Measurements,
  ask: FramingAsk,
  intrusions: readonly Rect[],
): BeyondCrop | null {
  const sitter = sitterOf(measured)
  if ('doubts' in sitter) return null
  const problem = { sitter, ask, intrusions, wholeHead: true }
  const sameSize = askAtSameSize(sitter, ask)
  const attempts: readonly ((marginShare: number) => CropBox | null)[] = [
    (marginShare) =>
      sameSize && moved({ ...problem, ask: sameSize, framed: false, enoughPixels: true, marginShare }),
    (marginShare) => leastBeyond({ ...problem, framed: false, enoughPixels: true, marginShare }),
    (marginShare) => within({ ...problem, framed: true, enoughPixels: false, marginShare }),
    (marginShare) => leastBeyond({ ...problem, framed: false, enoughPixels: false, marginShare }),
  ]
  for (const attempt of attempts) {
    for (const marginShare of MARGINS) {
      const box = attempt(marginShare)
      if (!box) continue
      const levelFirst = leansTooMuch(sitter, ask)
      return { box, tight: marginShare === 0, levelFirst, deliverAt: deliveredAt(box, ask) }
    }
  }
  return null
}

/** What is asked of the place alone, where the size of frame and head is right as it is measured; else null. */
function askAtSameSize({ frame, headHeight }: Sitter, ask: FramingAsk): FramingAsk | null {
  const { 'aspect-ratio': ratio, 'pixel-size': size, 'head-height': height, ...place } = ask
  if (height && sideOf((100 * headHeight) / frame.heightPx, height) !== 'inside') return null
  if (!shapesFor(ratio, size).some((shape) => hasShape(frame, shape))) return null
  const open = { min: 1, max: Infinity }
  const exactly = (px: number) => ({ min: px, max: px })
  return {
    ...place,
    'pixel-size': {
      ...{ width: exactly(frame.widthPx), height: exactly(frame.heightPx) },
      ...{ longEdge: open, shortEdge: open },
    },
  }
}

function hasShape({ widthPx, heightPx }: Size, { ratio, width, height }: Shape): boolean {
  const nearest = clamp(widthPx / heightPx, ratio)
  return (
    Math.abs(widthPx - nearest * heightPx) <= ratioTolerancePx(nearest) &&
    clamp(widthPx, width) === widthPx &&
    clamp(heightPx, height) === heightPx
  )
}

/** A crop of the frame's own size: a larger one, scaled down, would make the head smaller. */
function moved(problem: Problem): CropBox | null {
  const { widthPx, heightPx } = problem.sitter.frame
  const box = leastBeyond(problem)
  return box?.widthPx === widthPx && box.heightPx === heightPx ? box : null
}

function leastBeyond(problem: Problem): CropBox | null {
  const { frame } = problem.sitter
  const boxes = smallestCrops(problem).map((fit) => nearestBox(fit, frame))
  const missing = (box: CropBox) => totalMissing(missingAround(box, frame))
  return boxes.toSorted((a, b) => missing(a) - missing(b))[0] ?? null
}

function within(problem: Problem): CropBox | null {
  const largest = largestCrop(problem)
  return largest && nearestBox(largest, problem.sitter.frame)
}

/** The size in the box's shape that pixel size asks: its own where that is allowed. */
function deliveredAt(box: Size, ask: FramingAsk): Size | null {
  if (!ask['pixel-size']) return null
  const shapes = shapesFor(ask['aspect-ratio'], ask['pixel-size'])
  const ratio = box.widthPx / box.heightPx
  const off = (limits: { min: number; max: number }) => Math.max(limits.min - ratio, ratio - limits.max, 0)
  const [shape] = shapes.toSorted((a, b) => off(a.ratio) - off(b.ratio))
  if (!shape) return null
  const isEnough = box.widthPx >= shape.width.min && box.heightPx >= shape.height.min
  const size = isEnough ? deliveredSize(box, shape) : leastSize(shape)
  return size.widthPx === box.widthPx && size.heightPx === box.heightPx ? null : size
}
