import type { CropAdvice } from '../framing/advice.ts'
import type { FramingAsk } from '../framing/ask.ts'
import { solveCrop } from '../framing/crop.ts'
import type { Rect } from '../framing/room.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import type { Rule } from '../rules/contract/rule.ts'
import { cropFix } from './crop-fix.ts'
import { type Planned, type Running, runs } from './plan.ts'

/** Tells the failed rules on the framing which crop meets them all, or why none does; solved only when one failed. */
export function withCropAdvice(
  outcomes: Outcome[],
  measured: Measurements,
  plan: readonly Planned<Rule>[],
): Outcome[] {
  // Only a failure needs a fix.
  if (!outcomes.some(({ verdict }) => verdict === 'fail')) return outcomes
  const framing = plan.filter(runs).flatMap(framingOf)
  const failed = outcomes.filter(
    ({ verdict, rule }) => verdict === 'fail' && framing.some(({ id }) => id === rule),
  )
  if (failed.length === 0) return outcomes
  const advice = cropAdvice(measured, framing)
  const { widthPx, heightPx } = measured
  const frame = widthPx && heightPx ? { widthPx, heightPx } : null
  return outcomes.map((outcome) => {
    if (!failed.includes(outcome)) return outcome
    return { ...outcome, ...cropFix(outcome.rule, outcome.fix ?? '', advice, frame) }
  })
}

interface Framing {
  readonly id: string
  readonly advisory: boolean
  readonly ask: FramingAsk
}

function framingOf({ rule, way, advisory }: Running<Rule>): Framing[] {
  return rule.framing ? [{ id: rule.id, advisory, ask: rule.framing(way.options) }] : []
}

/** The crop that meets every rule; when there is none, the one that meets those that are more than advisory. */
function cropAdvice(measured: Measurements, framing: readonly Framing[]): CropAdvice {
  const advice = solved(measured, framing)
  if (!('conflicts' in advice)) return advice
  const binding = framing.filter(({ advisory }) => !advisory)
  if (binding.length === framing.length) return advice
  const lesser = solved(measured, binding)
  return 'crop' in lesser ? lesser : advice
}

function solved(measured: Measurements, framing: readonly Framing[]): CropAdvice {
  const ask = together(framing)
  return solveCrop(measured, ask, unwanted(measured, ask['backdrop-edge']?.smallestPct ?? Infinity))
}

/** What stands at the edges and takes up that share of the frame or more, in px of the frame, outward to whole px. */
function unwanted({ widthPx, heightPx, background }: Measurements, smallestPct: number): Rect[] {
  const found = (background?.intrusions ?? []).filter(({ areaPct }) => areaPct >= smallestPct)
  if (!widthPx || !heightPx) return []
  return found.map(({ box: { x, y, width, height } }) => ({
    left: Math.floor(x * widthPx),
    top: Math.floor(y * heightPx),
    right: Math.ceil((x + width) * widthPx),
    bottom: Math.ceil((y + height) * heightPx),
  }))
}

function together(framing: readonly Framing[]): FramingAsk {
  let all: FramingAsk = {}
  for (const { ask } of framing) all = { ...all, ...ask }
  return all
}
