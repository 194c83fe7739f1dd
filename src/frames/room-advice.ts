import { conflictsOf } from '../framing/conflicts.ts'
import { largestCrop, smallestCrops } from '../framing/extremes.ts'
import type { Fit } from '../framing/fit.ts'
import type { Problem } from '../framing/problem.ts'
import { leastSize, shapesFor } from '../framing/shape.ts'
import { scaleToHold, type Turned, turnedBy } from '../framing/turned.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import type { Limits } from '../numbers/limits.ts'
import type { Advice, AdviceSide, Change } from './advice.ts'
import type { Obstacle } from './crop-room.ts'
import type { CropRoom } from './frame-report.ts'

/** What the photographer is to change so that the next frame has room for the crop. */
export function roomAdvice(room: CropRoom, obstacle: Obstacle | null, measured: Measurements): Advice[] {
  const { verdict, deliverable } = room
  if (verdict === 'pass' || verdict === 'skip') return []
  const asks = {
    rule: 'crop-room',
    deliverables: deliverable === null ? [] : [deliverable],
    advisory: false,
  }
  return changesFor(obstacle, measured).map((change) => ({ ...change, ...asks }))
}

function changesFor(obstacle: Obstacle | null, measured: Measurements): Change[] {
  switch (obstacle?.kind) {
    case undefined:
      return [{ code: 'check' }]
    case 'head-cut':
      return [{ code: 'aim', side: 'up' }]
    case 'leans':
      return [leveled(obstacle.turnDeg)]
    case 'problem':
      return ofProblem(obstacle.problem, measured)
  }
}

function leveled(turnDeg: number): Change {
  return {
    code: 'level-camera',
    deg: Math.abs(turnDeg),
    side: turnDeg > 0 ? 'clockwise' : 'counterclockwise',
  }
}

/**
 * By how much another frame may show more than this one, as multiples of its field of view: from `min` on it has room for the crop, up to
 * `max` enough pixels. Empty (min > max) where this camera has too few; infinite `min` where no frame would do.
 */
function fieldsOfView({ ask, ...problem }: Problem, turned: Turned): Limits {
  const anySize = { ...problem, ask, framed: false, enoughPixels: false }
  const scales = smallestCrops(anySize).map((fit) => scaleToHold(turned, sizeOf(fit)))
  const min = Math.min(...scales)
  if (!ask['pixel-size']) return { min, max: Infinity }
  const largest = largestCrop(anySize)
  const ordered = shapesFor(ask['aspect-ratio'], ask['pixel-size']).map(leastSize)
  const holding = ordered.filter((size) => scaleToHold(turned, size) <= 1)
  const enough = holding.map(({ widthPx, heightPx }) =>
    largest ? Math.min(largest.width / widthPx, largest.height / heightPx) : 0,
  )
  return { min, max: Math.max(0, ...enough) }
}

function ofProblem(problem: Problem, { widthPx, heightPx }: Measurements): Change[] {
  const { sitter, intrusions, turned: given } = problem
  const picture = { widthPx: widthPx ?? 1, heightPx: heightPx ?? 1 }
  const anywhere = { ...problem, intrusions: [] }
  const { min, max } = fieldsOfView(anywhere, given ?? turnedBy(0, picture))
  if (!Number.isFinite(min)) return [contradiction(anywhere)]
  if (intrusions.length > 0 && largestCrop(anywhere)) return edgesOf(problem)
  if (min > max) {
    const upright = { widthPx: picture.heightPx, heightPx: picture.widthPx }
    const other = fieldsOfView(anywhere, turnedBy(0, upright))
    return [{ code: other.min <= other.max ? 'turn-camera' : 'too-few-pixels' }]
  }
  if (max < 1) return [{ code: 'step-closer', pct: 100 * (1 - max) }]
  const [smallest] = smallestCrops({ ...anywhere, framed: false }).toSorted((a, b) => a.height - b.height)
  const aims = smallest ? aimsFor(smallest, Math.max(1, min), sitter.frame) : []
  if (min > 1) return [{ code: 'step-back', pct: 100 * (min - 1) }, ...aims]
  if (aims.length > 0) return aims
  // Level as it is, there would be room: it is the turn that costs the corners.
  return given ? [leveled(given.deg)] : [{ code: 'step-back', pct: LEAST_STEP_PCT }]
}

function contradiction(problem: Problem): Change {
  const [first] = conflictsOf(problem).filter(({ kind }) => kind === 'spec' || kind === 'demands')
  return { code: first?.kind === 'spec' ? 'spec' : 'pose', rules: [...(first?.demands ?? [])] }
}

function sizeOf({ width, height }: Fit) {
  return { widthPx: width, heightPx: height }
}

/** Least step that is told, percent of the distance. @choice what is less is within what a hand holds still; no source. */
const LEAST_STEP_PCT = 1

/** Where the camera has to aim for the crop to lie in a frame of so many times the field of view. */
function aimsFor(
  { width, height, left, top }: Fit,
  scale: number,
  frame: Problem['sitter']['frame'],
): Change[] {
  const across = shift(left, width, frame.widthPx, scale)
  const down = shift(top, height, frame.heightPx, scale)
  return [...aim(across, 'left', 'right'), ...aim(down, 'up', 'down')]
}

/** How far a crop reaches beyond the frame once that shows more, in percent of that frame; negative to the left or above. */
function shift(starts: Limits, size: number, edge: number, scale: number): number {
  const [from, to] = [(edge - scale * edge) / 2, (edge + scale * edge) / 2]
  const below = Math.min(0, starts.max - from)
  const beyond = Math.max(0, starts.min + size - to)
  return (100 * (below || beyond)) / (scale * edge)
}

function aim(pct: number, low: AdviceSide, high: AdviceSide): Change[] {
  if (pct === 0) return []
  return [{ code: 'aim', side: pct < 0 ? low : high, pct: Math.abs(pct) }]
}

/** The sides at which something stands that leaves no room for the crop. */
function edgesOf({ intrusions, sitter: { frame, eyes } }: Problem): Change[] {
  const sides = intrusions.map(({ left, top, right, bottom }): AdviceSide => {
    const gaps: readonly (readonly [AdviceSide, number])[] = [
      ['left', (eyes.x - right) / frame.widthPx],
      ['right', (left - eyes.x) / frame.widthPx],
      ['up', (eyes.y - bottom) / frame.heightPx],
      ['down', (top - eyes.y) / frame.heightPx],
    ]
    return gaps.toSorted((a, b) => b[1] - a[1])[0]?.[0] ?? 'none'
  })
  return [...new Set(sides)].map((side) => ({ code: 'clear-edge', side }))
}
