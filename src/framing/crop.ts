import type { Measurements } from '../measure/schema/measurements.ts'
import type { Limits } from '../numbers/limits.ts'
import type { Crop, CropAdvice } from './advice.ts'
import type { Aim } from './aim.ts'
import { askedRules, type FramingAsk, type Size } from './ask.ts'
import { clamp } from './axis.ts'
import { conflictsOf } from './conflicts.ts'
import type { CropBox } from './crop-box.ts'
import { aimedCrop, type Chosen, largestCrop } from './extremes.ts'
import type { Fit } from './fit.ts'
import type { Problem } from './problem.ts'
import type { Rect } from './room.ts'
import { leansTooMuch, type Sitter, sitterOf } from './sitter.ts'
import type { Turned } from './turned.ts'

/** Most intrusions that a crop is looked for around. @choice no source: more are no backdrop with something in it, and each divides the search. */
export const MOST_INTRUSIONS = 16

/**
 * The largest crop within the frame, in whole px, that meets everything asked when it is measured again; or what
 * stands against it. A safety margin is kept where there is room for it, else half of it, else none (`tight`).
 * @param intrusions what stands at the edge, in px of the frame; left out where `backdrop-edge` asks for it
 * @param wanted where the crop is to put the sitter: then the one nearest to that is chosen instead of the largest; and whether the frame is a turned
 * picture
 */
export function solveCrop(
  measured: Measurements,
  ask: FramingAsk,
  intrusions: readonly Rect[] = [],
  { aim, turned }: { readonly aim?: Aim; readonly turned?: Turned | null } = {},
): CropAdvice {
  const sitter = sitterOf(measured)
  if ('doubts' in sitter) return sitter
  const unwanted = ask['backdrop-edge'] ? intrusions : []
  if (unwanted.length > MOST_INTRUSIONS) return { doubts: ['backdrop-not-plain'] }
  const problem = {
    sitter,
    ask,
    intrusions: unwanted,
    wholeHead: true,
    framed: true,
    enoughPixels: true,
    marginShare: 0,
    ...(turned && { turned }),
  }
  const choose = (one: Problem) => (aim ? aimedCrop(one, aim) : largestCrop(one))
  const exact = choose(problem)
  if (!exact) return { conflicts: conflictsOf(problem) }
  // What is measured already needs no margin for measuring it anew, only for its errors.
  const sure = choose({ ...problem, errorShare: 1 })
  if (sure && isWhole(sure, sitter)) return cropFor(problem, sure, false)
  for (const marginShare of [1, 0.5]) {
    const chosen = choose({ ...problem, marginShare })
    if (chosen) return cropFor(problem, chosen, false)
  }
  return cropFor(problem, exact, true)
}

function cropFor(problem: Problem, chosen: Chosen, tight: boolean): Crop {
  const { sitter, ask } = problem
  return {
    crop: boxOf(problem, chosen),
    scaleTo: scaleOf(chosen),
    meets: askedRules(ask),
    tight,
    levelFirst: leansTooMuch(sitter, ask),
  }
}

/** The one box of those that fit: in the middle of what the spec leaves free. */
export function boxOf({ sitter: { eyes, frame }, ask }: Problem, { width, height, left, top }: Fit): CropBox {
  const down = ask.headroom ?? ask['eye-line']
  return {
    leftPx: startIn(left, ask.centering ? null : eyes.x * (1 - width / frame.widthPx)),
    topPx: startIn(top, down ? null : eyes.y * (1 - height / frame.heightPx)),
    widthPx: width,
    heightPx: height,
  }
}

/** The size to scale a crop down to; null when its own will do. */
export function scaleOf({ width, height, delivered }: Chosen): Size | null {
  return delivered.widthPx !== width || delivered.heightPx !== height ? delivered : null
}

/**
 * Where a crop starts: in the middle of what the spec leaves free. Where it asks for no place at all, where the
 * eyes keep their share of the frame.
 */
function startIn(starts: Limits, wanted: number | null): number {
  return clamp(Math.round(wanted ?? Math.floor((starts.min + starts.max) / 2)), starts)
}

function isWhole({ width, height }: Chosen, { frame }: Sitter): boolean {
  return width === frame.widthPx && height === frame.heightPx
}
