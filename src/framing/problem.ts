import type { Limits } from '../numbers/limits.ts'
import type { FramingAsk } from './ask.ts'
import { type Axis, type Mark, polygonOf } from './axis.ts'
import type { Sides } from './fit.ts'
import { INTRUSION_MARGIN_PCT, sharesOf } from './margin.ts'
import { type Rect, roomsIn } from './room.ts'
import { type Shape, shapesFor } from './shape.ts'
import type { Sitter } from './sitter.ts'

export interface Problem {
  readonly sitter: Sitter
  readonly ask: FramingAsk
  /** Regions to leave out, in px of the frame. */
  readonly intrusions: readonly Rect[]
  /** Whether crown, chin and face must stay in the crop. */
  readonly wholeHead: boolean
  /** Whether the crop must stay within the frame, or may reach as far beyond it as an uncropped frame would. */
  readonly framed: boolean
  /** Whether the crop must have the pixels that the spec asks at the least; its shape holds in any case. */
  readonly enough: boolean
  /** Share of the safety margin that is kept, 0..1; see margin.ts. */
  readonly margin: number
}

const ANY_SHARE: Limits = { min: -Infinity, max: Infinity }
// From edge to edge; the float noise of a percentage must not cost a pixel.
const WITHIN: Limits = { min: -1e-12, max: 1 + 1e-12 }
// What is looked at beyond each edge, in edges: a delivered portrait is hardly less than a quarter of the frame that
// it was cut from. Common practice, no source.
const BEYOND = 1.5

/** The problem as pairs of axes: one for each region free of intrusions and each shape that a crop may have. */
export function sidesOf(problem: Problem): Sides[] {
  const { sitter, ask, intrusions, margin } = problem
  const { widthPx, heightPx } = sitter.frame
  const [across, down] = problem.framed ? [0, 0] : [BEYOND * widthPx, BEYOND * heightPx]
  const frame = grown({ left: 0, top: 0, right: widthPx, bottom: heightPx }, across, down)
  const clear = (margin * INTRUSION_MARGIN_PCT * Math.max(widthPx, heightPx)) / 100
  const rooms = roomsIn(
    frame,
    intrusions.map((each) => grown(each, clear, clear)),
    sitter.eyes,
  ).map((room) => ({ across: polygonOf(acrossOf(room, problem)), down: polygonOf(downOf(room, problem)) }))
  const shapes = shapesFor(ask['aspect-ratio'], ask['pixel-size'])
  return shapes.flatMap((shape) =>
    rooms.map((room) => ({
      ...room,
      shape: problem.enough ? shape : smaller(shape),
      tolerance: 1 - margin / 2,
    })),
  )
}

function downOf(room: Rect, { sitter, ask, wholeHead, margin }: Problem): Axis {
  const { crownY, chinY, headHeight, headHeightError, eyes } = sitter
  const { headroom, 'eye-line': eyeLine, 'head-height': height } = ask
  const marks: Mark[] = [{ at: eyes.y, share: WITHIN }]
  if (headroom) marks.push({ at: crownY, share: sharesOf('headroom', headroom, margin) })
  if (eyeLine) marks.push({ at: eyes.y, share: sharesOf('eye-line', eyeLine, margin) })
  if (wholeHead && !cutsHead(headroom)) marks.push({ at: crownY, share: WITHIN })
  if (wholeHead) marks.push({ at: chinY, share: WITHIN })
  const shares = height ? sharesOf('head-height', height, margin) : ANY_SHARE
  const size = sizesHolding(headHeight, margin * headHeightError, shares)
  return { room: { min: room.top, max: room.bottom }, size, marks }
}

function acrossOf(room: Rect, { sitter, ask: { centering }, wholeHead, margin }: Problem): Axis {
  const { eyes, faceLeft, faceRight } = sitter
  const marks: Mark[] = [{ at: eyes.x, share: WITHIN }]
  if (centering) {
    const { min, max } = sharesOf('centering', centering, margin)
    marks.push({ at: eyes.x, share: { min: 0.5 + min, max: 0.5 + max } })
  }
  if (wholeHead) for (const at of [faceLeft, faceRight]) marks.push({ at, share: WITHIN })
  return { room: { min: room.left, max: room.right }, size: { min: 0, max: Infinity }, marks }
}

/** True when the spec writes a headroom below nothing: its style cuts into the hair. */
function cutsHead(headroom: Limits | undefined): boolean {
  if (!headroom) return false
  return headroom.max < 0 || (headroom.min < 0 && headroom.min !== -Infinity)
}

// Of a range that is narrow for a length's error so much stays free of it, as in margin.ts.
const FREE = 0.5

/** The sizes of which a length in px, known to `error` px, makes up a share within limits. */
function sizesHolding(length: number, error: number, { min, max }: Limits): Limits {
  // From this error on no size would do.
  const most = min > 0 && max < Infinity ? (length * Math.max(0, max - min)) / (max + min) : Infinity
  const off = Math.min(error, (1 - FREE) * most)
  return {
    min: max > 0 ? (length + off) / max : Infinity,
    max: min > 0 ? (length - off) / min : Infinity,
  }
}

function smaller(shape: Shape): Shape {
  return {
    ...shape,
    width: { ...shape.width, min: 1 },
    height: { ...shape.height, min: 1 },
  }
}

/** A region with so many px more at each side, outward to whole px. */
function grown({ left, top, right, bottom }: Rect, across: number, down: number): Rect {
  return {
    left: Math.floor(left - across),
    top: Math.floor(top - down),
    right: Math.ceil(right + across),
    bottom: Math.ceil(bottom + down),
  }
}
