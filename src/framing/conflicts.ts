import type { Conflict, Demand } from './advice.ts'
import type { Size } from './ask.ts'
import type { Missing } from './crop-box.ts'
import { largestCrop, smallestCrops } from './extremes.ts'
import type { Fit } from './fit.ts'
import { missingAround, nearestBox, totalMissing } from './missing.ts'
import type { Problem } from './problem.ts'
import { leastSize, shapesFor } from './shape.ts'

/** Why a problem that has no solution has none; at least one conflict. */
export function conflictsOf(problem: Problem): Conflict[] {
  const { 'aspect-ratio': ratio, 'pixel-size': size } = problem.ask
  if (shapesFor(undefined, size).length === 0) return [{ kind: 'spec', demands: ['pixel-size'] }]
  if (shapesFor(ratio, size).length === 0) return [{ kind: 'spec', demands: ['pixel-size', 'aspect-ratio'] }]
  const asked = leastAsked(problem)
  const free = { ...problem, enoughPixels: false }
  const { frame } = problem.sitter
  if (problem.enoughPixels && asked && (frame.widthPx < asked.widthPx || frame.heightPx < asked.heightPx)) {
    const largest = largestCrop(free)
    const available = largest ? sizeOf(largest) : frame
    const tooSmall: Conflict = { kind: 'pixels', demands: ['pixel-size'], available, asked }
    return largest ? [tooSmall] : [tooSmall, ...conflictsOf(free)]
  }
  const missing = leastMissing(problem)
  if (missing) return [{ kind: 'frame', demands: culpritsOf(problem), ...missing }]
  const unframed = { ...problem, framed: false }
  const available = largestCrop({ ...unframed, enoughPixels: false })
  if (available && asked)
    return [{ kind: 'pixels', demands: culpritsOf(unframed), available: sizeOf(available), asked }]
  return [{ kind: 'demands', demands: culpritsOf(unframed) }]
}

// Each takes one demand off. The later ones are kept when either of two would do: they say more to a photographer.
const RELAXATIONS: readonly (readonly [Demand, (problem: Problem) => Problem])[] = [
  ['whole-head', (problem) => ({ ...problem, wholeHead: false })],
  ['backdrop-edge', (problem) => ({ ...problem, intrusions: [] })],
  ['aspect-ratio', (problem) => unasked(problem, 'aspect-ratio')],
  ['pixel-size', (problem) => unasked(problem, 'pixel-size')],
  ['centering', (problem) => unasked(problem, 'centering')],
  ['head-height', (problem) => unasked(problem, 'head-height')],
  ['eye-line', (problem) => unasked(problem, 'eye-line')],
  ['headroom', (problem) => unasked(problem, 'headroom')],
]

function unasked(problem: Problem, rule: keyof Problem['ask']): Problem {
  const { [rule]: _, ...ask } = problem.ask
  return { ...problem, ask }
}

/**
 * Demands that can't be met together, while they could without any one of them (a minimal infeasible subset, by
 * taking demands off one after the other as long as the rest stays infeasible: the deletion filter of Chinneck and
 * Dravnieks, ORSA Journal on Computing 3 (1991); cited from memory).
 */
function culpritsOf(problem: Problem): Demand[] {
  let rest = problem
  const culprits: Demand[] = []
  for (const [demand, relaxed] of RELAXATIONS) {
    if (smallestCrops(relaxed(rest)).length > 0) culprits.unshift(demand)
    else rest = relaxed(rest)
  }
  return culprits
}

/** What the frame lacks at its sides for the smallest crop, which needs the least; null when no wider frame helps. */
function leastMissing(problem: Problem): Missing | null {
  const { frame } = problem.sitter
  const crops = smallestCrops({ ...problem, framed: false })
  const missing = crops.map((crop) => missingAround(nearestBox(crop, frame), frame))
  return missing.toSorted((a, b) => totalMissing(a) - totalMissing(b))[0] ?? null
}

/** The least size that pixel size asks, in the shape it is asked in; null when nothing is asked or nothing fits. */
function leastAsked({ ask, sitter: { frame } }: Problem): Size | null {
  if (!ask['pixel-size']) return null
  const lacking = ({ widthPx, heightPx }: Size) =>
    Math.max(0, widthPx - frame.widthPx) + Math.max(0, heightPx - frame.heightPx)
  const sizes = shapesFor(ask['aspect-ratio'], ask['pixel-size']).map(leastSize)
  return sizes.toSorted((a, b) => lacking(a) - lacking(b))[0] ?? null
}

function sizeOf({ width, height }: Fit): Size {
  return { widthPx: width, heightPx: height }
}
