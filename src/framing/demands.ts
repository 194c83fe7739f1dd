import type { Limits } from '../numbers/limits.ts'
import type { Axis, Mark } from './axis.ts'
import { type Banded, FREE, sharesOf } from './margin.ts'
import type { Problem } from './problem.ts'
import type { Rect } from './room.ts'

/*
 * What is asked of the framing, as demands on the start and the size of a crop: across, what is to stay in it and the
 * centering; down, what is to stay in it, headroom, eye line and the height of the head.
 */

const ANY_SHARE: Limits = { min: -Infinity, max: Infinity }
/** From edge to edge of the crop. @choice the rounding of a percentage must not cost a pixel */
const WITHIN: Limits = { min: -1e-12, max: 1 + 1e-12 }

export function acrossAxis(
  room: Rect,
  { sitter, ask: { centering }, wholeHead, marginShare, errorShare = marginShare }: Problem,
): Axis {
  const { eyes, errors, faceLeft, faceRight } = sitter
  const marks: Mark[] = [{ at: eyes.x, share: WITHIN }]
  if (centering) {
    // Told from the center of the crop, which has its own share of 0.5.
    const { min, max } = sharesOf('centering', centering, marginShare)
    const error = errorShare * errors.offCenter
    marks.push({ at: eyes.x, error, share: { min: 0.5 + min, max: 0.5 + max } })
  }
  if (wholeHead) for (const at of [faceLeft, faceRight]) marks.push({ at, share: WITHIN })
  return { room: { min: room.left, max: room.right }, size: { min: 0, max: Infinity }, marks }
}

export function downAxis(
  room: Rect,
  { sitter, ask, wholeHead, marginShare, errorShare = marginShare, strictErrors = false }: Problem,
): Axis {
  const { crownY, chinY, headHeight, errors, eyes } = sitter
  const { headroom, 'eye-line': eyeLine, 'head-height': height } = ask
  const marks: Mark[] = [{ at: eyes.y, share: WITHIN }]
  const held = (rule: Banded, limits: Limits, at: number, error: number) =>
    marks.push({ at, error: errorShare * error, share: sharesOf(rule, limits, marginShare) })
  if (headroom) held('headroom', headroom, crownY, errors.crown)
  if (eyeLine) held('eye-line', eyeLine, eyes.y, errors.eyeLine)
  if (wholeHead && !cutsHead(headroom)) marks.push({ at: crownY, share: WITHIN })
  if (wholeHead) marks.push({ at: chinY, share: WITHIN })
  const shares = height ? sharesOf('head-height', height, marginShare) : ANY_SHARE
  const size = sizesHolding(headHeight, errorShare * errors.headHeight, shares, strictErrors)
  return { room: { min: room.top, max: room.bottom }, size, marks }
}

/** True when the spec writes a headroom below nothing: its style cuts into the hair. */
function cutsHead(headroom: Limits | undefined): boolean {
  if (!headroom) return false
  return headroom.max < 0 || (headroom.min < 0 && headroom.min !== -Infinity)
}

/**
 * The sizes of which a length makes up a share within limits, wherever it is within its error:
 * (length + error) / size <= max and (length - error) / size >= min. Unless it is strict, an error
 * that would leave no size, or hardly any, is reduced: the two limits meet at length (max - min) / (max + min).
 * @param length and its error, px
 */
function sizesHolding(length: number, error: number, { min, max }: Limits, isStrict: boolean): Limits {
  const most = min > 0 && max < Infinity ? (length * Math.max(0, max - min)) / (max + min) : Infinity
  const off = isStrict ? error : Math.min(error, (1 - FREE) * most)
  return {
    min: max > 0 ? (length + off) / max : Infinity,
    max: min > 0 ? (length - off) / min : Infinity,
  }
}
