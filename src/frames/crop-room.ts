import type { Spec } from '../brand-spec/spec.ts'
import type { FramingAsk, Size } from '../framing/ask.ts'
import { boxOf, MOST_INTRUSIONS, scaleOf } from '../framing/crop.ts'
import { type Chosen, largestCrop } from '../framing/extremes.ts'
import type { Problem } from '../framing/problem.ts'
import { leastSize, shapesFor } from '../framing/shape.ts'
import { sitterOf } from '../framing/sitter.ts'
import { turnedBy } from '../framing/turned.ts'
import { askTogether, framingOf, unwantedAtEdge } from '../judge/framing-ask.ts'
import { planFile, type Running, runs } from '../judge/plan.ts'
import type { Doubt, Measurements } from '../measure/schema/measurements.ts'
import { sideOf } from '../numbers/limits.ts'
import type { Verdict } from '../rules/contract/outcome.ts'
import type { Rule } from '../rules/contract/rule.ts'
import { RULES } from '../rules/index.ts'
import { isHeadCut } from '../rules/judging/unseen.ts'
import { cropped } from './cropped.ts'
import type { CropRoom, FrameCrop } from './frame-report.ts'
import { levelingFor } from './leveling.ts'
import { turnedFrame } from './turned-frame.ts'

const FRAMING = RULES.filter(({ dependsOn }) => dependsOn === 'crop')

/** What stands against a crop, for the advice. */
export type Obstacle =
  | { readonly kind: 'head-cut' }
  | { readonly kind: 'leans'; readonly turnDeg: number }
  | { readonly kind: 'problem'; readonly problem: Problem }

interface Solved {
  readonly room: CropRoom
  /** Null where there is none, or nobody knows. */
  readonly obstacle: Obstacle | null
}

/** Whether there is a crop of the frame that meets every rule on the framing of a deliverable, at no fewer pixels than ordered. */
export function cropRoomOf(
  measured: Measurements,
  spec: Spec,
  deliverable: string | null,
  isFaceless: boolean,
): Solved {
  const plan = planFile({ name: { deliverable }, readable: true }, spec, FRAMING).filter(runs)
  const blank = { deliverable, rules: ids(plan), warned: [], crop: null, pixelsPct: null, doubts: [] }
  if (plan.length === 0 || measured.fault || isFaceless)
    return { room: { ...blank, verdict: 'skip' }, obstacle: null }
  const all = solve(measured, plan)
  const binding = plan.filter(({ advisory }) => !advisory)
  if (all.verdict === 'pass' || binding.length === plan.length) return solvedAs(blank, all)
  const least: Answer = binding.length > 0 ? solve(measured, binding) : { verdict: 'pass' }
  if (rank(least.verdict) === rank(all.verdict)) return solvedAs(blank, all)
  const warned = ids(plan.filter(({ advisory }) => advisory))
  return solvedAs({ ...blank, rules: ids(binding), warned }, least)
}

interface Answer {
  readonly verdict: Verdict
  readonly crop?: FrameCrop
  readonly pixelsPct?: number | null
  readonly doubts?: readonly Doubt[]
  readonly obstacle?: Obstacle
}

function solvedAs(blank: Omit<CropRoom, 'verdict'>, answer: Answer): Solved {
  const { verdict, crop = null, pixelsPct = null, doubts = [], obstacle = null } = answer
  return { room: { ...blank, verdict, crop, pixelsPct, doubts: [...doubts] }, obstacle }
}

function rank(verdict: Verdict): number {
  return ['fail', 'unsure', 'pass'].indexOf(verdict)
}

type Plan = readonly Running<Rule>[]

function ids(plan: Plan): string[] {
  return plan.map(({ rule }) => rule.id)
}

function solve(measured: Measurements, plan: Plan): Answer {
  const { widthPx, heightPx } = measured
  const ask = askTogether(plan.flatMap(framingOf))
  if (!widthPx || !heightPx) return { verdict: 'unsure' }
  if (isHeadCut(measured) && ask.headroom && sideOf(measured.head?.headroomPct ?? 0, ask.headroom) === 'low')
    return { verdict: 'fail', obstacle: { kind: 'head-cut' } }
  const { turnsDeg, tooMuch } = levelingFor(measured, ask.tilt)
  if (tooMuch)
    return {
      verdict: tooMuch === 'surely' ? 'fail' : 'unsure',
      obstacle: { kind: 'leans', turnDeg: turnsDeg[0] ?? 0 },
    }
  let best: Answer | null = null
  for (const turnDeg of turnsDeg) {
    const answer = solveTurned(measured, turnDeg, { plan, ask, picture: { widthPx, heightPx } })
    if (!best || rank(answer.verdict) > rank(best.verdict)) best = answer
    if (answer.verdict === 'pass') break
  }
  return best ?? { verdict: 'unsure' }
}

interface Task {
  readonly plan: Plan
  readonly ask: FramingAsk
  readonly picture: Size
}

function solveTurned(measured: Measurements, turnDeg: number, { plan, ask, picture }: Task): Answer {
  const turned = turnDeg === 0 ? null : turnedBy(turnDeg, picture)
  const level = turned ? turnedFrame(measured, turned) : measured
  const sitter = sitterOf(level)
  if ('doubts' in sitter) return { verdict: 'unsure', doubts: sitter.doubts }
  const problem: Problem = {
    ...{ sitter, ask, intrusions: [], wholeHead: true, framed: true, enoughPixels: true },
    ...{ marginShare: 0, errorShare: 1, strictErrors: true, ...(turned && { turned }) },
  }
  for (const [marginShare, errorShare] of ATTEMPTS) {
    const found = clearOfEdges({ ...problem, marginShare, errorShare }, level)
    if (found === 'too-many') return { verdict: 'unsure', doubts: ['backdrop-not-plain'] }
    if (!found) continue
    const crop = frameCrop(problem, found, turnDeg)
    const verdict = errorShare === 1 ? verdictOn(level, crop, plan) : 'unsure'
    const doubts = verdict === 'unsure' ? (level.background?.doubts ?? []) : []
    return { verdict, crop, pixelsPct: pixelsPct(found, ask), doubts }
  }
  const hopeful = { ...problem, errorShare: -1 }
  return { verdict: 'fail', obstacle: { kind: 'problem', problem: edgesIn(hopeful, level) } }
}

/**
 * What a crop keeps free, in order: the safety margin, half of it, none, each with all errors; then it only has to be right when
 * nothing is off; then when everything is off to its advantage.
 */
const ATTEMPTS = [
  [1, 1],
  [0.5, 1],
  [0, 1],
  [0, 0],
  [0, -1],
] as const

/** What the frame has at its edges, as far as it counts in the whole of it. */
function edgesIn(problem: Problem, level: Measurements): Problem {
  return {
    ...problem,
    intrusions: unwantedAtEdge(level, problem.ask['backdrop-edge']?.smallestPct ?? Infinity),
  }
}

/**
 * The largest crop without anything at the edges that is large enough to count in it. What counts in a crop counts in every smaller one,
 * so that leaving it out never rules out a crop that would do.
 */
function clearOfEdges(problem: Problem, level: Measurements): Chosen | 'too-many' | null {
  const { widthPx, heightPx } = problem.sitter.frame
  const asked = problem.ask['backdrop-edge']?.smallestPct ?? Infinity
  let smallestPct = asked
  for (;;) {
    const intrusions = unwantedAtEdge(level, smallestPct)
    if (intrusions.length > MOST_INTRUSIONS) return 'too-many'
    const found = largestCrop({ ...problem, intrusions })
    if (!found) return null
    const inCrop = (asked * found.width * found.height) / (widthPx * heightPx)
    if (unwantedAtEdge(level, inCrop).length === intrusions.length) return found
    smallestPct = inCrop
  }
}

function frameCrop(problem: Problem, found: Chosen, turnDeg: number): FrameCrop {
  const scaleTo = scaleOf(found)
  return { turnDeg, canvas: problem.sitter.frame, ...boxOf(problem, found), ...(scaleTo && { scaleTo }) }
}

/** What the rules themselves say of the crop: also what no crop changes, as edges that could not be measured. */
function verdictOn(level: Measurements, crop: FrameCrop, plan: Plan): Verdict {
  const measured = cropped(level, crop, crop.scaleTo ?? crop)
  const name = { path: measured.file, pattern: null, fields: {}, deliverable: null, problems: [] }
  const verdicts = plan.map(
    ({ rule, application }) => rule.judge({ measured, name }, application.options).verdict,
  )
  return (['fail', 'unsure'] as const).find((one) => verdicts.includes(one)) ?? 'pass'
}

/** The crop's edge in percent of the least ordered; null where no least size is. */
function pixelsPct({ width, height }: Chosen, ask: FramingAsk): number | null {
  const shapes = shapesFor(ask['aspect-ratio'], ask['pixel-size']).map(leastSize)
  const shares = shapes.map(({ widthPx, heightPx }) => Math.min(width / widthPx, height / heightPx))
  return ask['pixel-size'] ? 100 * Math.max(...shares) : null
}
