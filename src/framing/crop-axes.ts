import { polygonOf } from './axis.ts'
import { acrossAxis, downAxis } from './demands.ts'
import type { CropAxes } from './fit.ts'
import { INTRUSION_MARGIN_PCT } from './margin.ts'
import type { Problem } from './problem.ts'
import { type Rect, roomsIn } from './room.ts'
import { type Shape, shapesFor } from './shape.ts'

/**
 * How far beyond each edge of the frame a crop may reach, as a multiple of the frame's side.
 * @choice a delivered portrait is hardly less than a quarter of the frame that it was cut from: common practice, no source
 */
const BEYOND = 1.5

/**
 * Splits the problem into simpler ones whose solutions together are those of the problem: one for each rectangle that the
 * intrusions leave free and each shape that a crop may have. In each, what may be a crop's left edge and width is one
 * polygon, its top edge and height another.
 */
export function cropAxesOf(problem: Problem): CropAxes[] {
  const { ask, enoughPixels, marginShare, framed, turned } = problem
  const around = framed && turned ? { turned } : {}
  const axes = freeRooms(problem).map((room) => ({
    across: polygonOf(acrossAxis(room, problem)),
    down: polygonOf(downAxis(room, problem)),
  }))
  return shapesFor(ask['aspect-ratio'], ask['pixel-size'])
    .map((shape) => (enoughPixels ? shape : ofAnySize(shape)))
    .flatMap((shape) => axes.map((pair) => ({ ...pair, ...around, shape, tolerance: 1 - marginShare / 2 })))
}

/** The rectangles around the eyes that are clear of the intrusions and their margins. */
function freeRooms({ sitter, intrusions, framed, marginShare }: Problem): Rect[] {
  const { widthPx, heightPx } = sitter.frame
  const frame = { left: 0, top: 0, right: widthPx, bottom: heightPx }
  const clear = (marginShare * INTRUSION_MARGIN_PCT * Math.max(widthPx, heightPx)) / 100
  return roomsIn(
    framed ? frame : grown(frame, BEYOND * widthPx, BEYOND * heightPx),
    intrusions.map((each) => grown(each, clear, clear)),
    sitter.eyes,
  )
}

function ofAnySize(shape: Shape): Shape {
  return { ...shape, width: { ...shape.width, min: 1 }, height: { ...shape.height, min: 1 } }
}

/** A rectangle enlarged on each side, rounded outward to whole px. */
function grown({ left, top, right, bottom }: Rect, across: number, down: number): Rect {
  return {
    left: Math.floor(left - across),
    top: Math.floor(top - down),
    right: Math.ceil(right + across),
    bottom: Math.ceil(bottom + down),
  }
}
