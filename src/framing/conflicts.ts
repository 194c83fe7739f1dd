import type { Limits } from '../numbers/limits.ts'
import type { Conflict, Demand } from './advice.ts'
import type { Size } from './ask.ts'
import { clamp } from './axis.ts'
import { largestCrop, smallestCrops } from './extremes.ts'
import type { Fit } from './fit.ts'
import type { Problem } from './problem.ts'
import { leastSize, shapesFor } from './shape.ts'

/** Why a problem that has no solution has none; at least one conflict. */
export function conflictsOf(problem: Problem): Conflict[] {
  const { 'aspect-ratio': ratio, 'pixel-size': size } = problem.ask
  if (shapesFor(undefined, size).length === 0) return [{ kind: 'spec', demands: ['pixel-size'] }]
  if (shapesFor(ratio, size).length === 0) return [{ kind: 'spec', demands: ['pixel-size', 'aspect-ratio'] }]
  const asked = leastAsked(problem)
  const free = { ...problem, enough: false }
  const { frame } = problem.sitter
  if (problem.enough && asked && (frame.widthPx < asked.widthPx || frame.heightPx < asked.heightPx)) {
    const largest = largestCrop(free)
    const available = largest ? sizeOf(largest) : frame
    const tooSmall: Conflict = { kind: 'pixels', demands: ['pixel-size'], available, asked }
    return largest ? [tooSmall] : [tooSmall, ...conflictsOf(free)]
  }
  const missing = leastMissing(problem)
  if (missing) return [{ kind: 'frame', demands: culpritsOf(problem), ...missing }]
  const unframed = { ...problem, framed: false }
  const available = largestCrop({ ...unframed, enough: false })
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

interface Missing {
  readonly abovePx: number
  readonly belowPx: number
  readonly leftPx: number
  readonly rightPx: number
}

/** What the frame lacks at its sides for the smallest crop, which needs the least; null when no wider frame helps. */
function leastMissing(problem: Problem): Missing | null {
  const crops = smallestCrops({ ...problem, framed: false })
  const missing = crops.map((crop) => missingFor(crop, problem.sitter.frame))
  return missing.toSorted((a, b) => total(a) - total(b))[0] ?? null
}

function missingFor({ width, height, left, top }: Fit, { widthPx, heightPx }: Size): Missing {
  const [leftPx, rightPx] = beyond(left, width, widthPx)
  const [abovePx, belowPx] = beyond(top, height, heightPx)
  return { abovePx, belowPx, leftPx, rightPx }
}

/** How far a crop reaches over both ends of an edge of the frame, when it starts where that is least. */
function beyond(starts: Limits, size: number, edge: number): [number, number] {
  const inside = { min: Math.min(0, edge - size), max: Math.max(0, edge - size) }
  const start = clamp(clamp((starts.min + starts.max) / 2, inside), starts)
  const whole = clamp(Math.round(start), starts)
  return [Math.max(0, -whole), Math.max(0, whole + size - edge)]
}

function total({ abovePx, belowPx, leftPx, rightPx }: Missing): number {
  return abovePx + belowPx + leftPx + rightPx
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
