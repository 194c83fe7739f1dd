import type { Conflict } from '../framing/advice.ts'
import { solveBeyond } from '../framing/beyond.ts'
import { solveCrop } from '../framing/crop.ts'
import type { CropTold } from '../framing/crop-box.ts'
import { missingAround, totalMissing } from '../framing/missing.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import type { FileCrop } from '../rules/contract/delivery-rule.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import type { Rule } from '../rules/contract/rule.ts'
import { conflictFix, cropFix, extendableSides } from '../rules/judging/crop-fix.ts'
import { isHeadCut } from '../rules/judging/unseen.ts'
import { askTogether, type Framing, framingOf, unwantedAtEdge } from './framing-ask.ts'
import { type Planned, runs } from './plan.ts'

/**
 * Gives a file's failed rules on the framing one fix between them: the first tells the one crop that meets all rules,
 * or what stands against it, and the others refer to it. Solved only when one failed.
 */
export function withCropAdvice(
  outcomes: Outcome[],
  measured: Measurements,
  plan: readonly Planned<Rule>[],
): Outcome[] {
  // Only a failure needs a fix.
  if (!outcomes.some(({ verdict }) => verdict === 'fail')) return outcomes
  const framing = plan.filter(runs).flatMap(framingOf)
  const ids = new Set(framing.map(({ id }) => id))
  const failed = outcomes.filter(({ verdict, rule }) => verdict === 'fail' && ids.has(rule))
  if (failed.length === 0) return outcomes
  const fixes = new Map<string, Pick<Outcome, 'fix' | 'crop'>>()
  for (const { rules, fix, crop } of advicesFor(measured, framing)) {
    const [lead, ...others] = failed.filter(({ rule }) => rules.includes(rule) && !fixes.has(rule))
    if (!lead || fix === null) continue
    fixes.set(lead.rule, { fix, ...(crop && { crop }) })
    const refer = `See ${lead.rule}: ${crop ? 'that fixes this too' : "they can't be met together"}.`
    for (const { rule } of others) fixes.set(rule, { fix: refer })
  }
  // Its own fix sends to the uncropped frame, of which no crop of this file is a part.
  const sendsBack = isHeadCut(measured) && failed.some(({ rule }) => rule === HEADROOM)
  for (const rule of sendsBack ? OF_PLACE : [])
    fixes.set(rule, { fix: `See ${HEADROOM}: the new crop has to fix this too.` })
  return outcomes.map((outcome) => {
    const advice = failed.includes(outcome) ? fixes.get(outcome.rule) : undefined
    if (!advice) return outcome
    const { export: _, ...rest } = outcome
    return { ...rest, ...advice }
  })
}

const HEADROOM = 'headroom'
const OF_PLACE = ['eye-line', 'centering']

// They are met by another size as well as by another crop.
const OF_SIZE = ['pixel-size', 'aspect-ratio']

/** What the outcomes of a file say of its crop; null when they leave it as it is. */
export function fileCropOf(outcomes: readonly Outcome[], rules: readonly Rule[]): FileCrop | null {
  const failed = outcomes.filter(({ verdict, waiver }) => verdict === 'fail' && waiver === undefined)
  if (failed.length === 0) return null
  const framing = new Set(rules.flatMap(({ id, framing: asks }) => (asks ? [id] : [])))
  const binding = failed.filter(({ rule }) => framing.has(rule))
  const [first] = [
    ...binding.filter(({ crop }) => crop !== undefined),
    ...binding.filter(({ rule }) => !OF_SIZE.includes(rule)),
  ]
  return first ? { rule: first.rule, crop: first.crop ?? null } : null
}

/** What fixes several rules at once; without words where each rule's own fix says it as well. */
interface Advice {
  readonly rules: readonly string[]
  readonly fix: string | null
  readonly crop?: CropTold
}

/** One advice for all rules; one more for each set of rules that can't be met together, which the next then leaves out. */
function advicesFor(measured: Measurements, framing: readonly Framing[]): Advice[] {
  if (framing.length === 0) return []
  const binding = framing.filter(({ advisory }) => !advisory)
  const all = adviceFor(measured, framing)
  if (!('conflict' in all)) return [all]
  const { demands } = all.conflict
  const told = { rules: demands, fix: conflictFix(all.conflict) }
  const lesser = binding.length < framing.length ? adviceFor(measured, binding) : all
  // What is only advisory gives way.
  if (!('conflict' in lesser)) return [lesser, told]
  const rest = framing.filter(({ id }) => !demands.some((demand) => demand === id))
  return rest.length === framing.length ? [told] : [told, ...advicesFor(measured, rest)]
}

function adviceFor(
  measured: Measurements,
  framing: readonly Framing[],
): Advice | { readonly conflict: Conflict } {
  const { widthPx, heightPx } = measured
  const ask = askTogether(framing)
  const intrusions = unwantedAtEdge(measured, ask['backdrop-edge']?.smallestPct ?? Infinity)
  const advice = solveCrop(measured, ask, intrusions)
  const rules = framing.map(({ id }) => id).filter((id) => id !== 'tilt')
  if ('doubts' in advice || !widthPx || !heightPx) return { rules, fix: null }
  const frame = { widthPx, heightPx }
  if ('crop' in advice) {
    const { crop, scaleTo, tight, levelFirst } = advice
    const context = { frame, tight, levelFirst, extendable: [] }
    return { rules, ...cropFix({ ...crop, ...(scaleTo && { scaleTo }) }, context) }
  }
  const beyond = solveBeyond(measured, ask, intrusions)
  const [conflict] = advice.conflicts.filter(({ kind }) => kind === 'spec' || kind === 'demands')
  if (!beyond) return conflict ? { conflict } : { rules, fix: null }
  const { box, tight, levelFirst, deliverAt } = beyond
  const missing = missingAround(box, frame)
  const told = {
    ...box,
    ...(deliverAt && { scaleTo: deliverAt }),
    ...(totalMissing(missing) > 0 && { missing }),
  }
  return { rules, ...cropFix(told, { frame, tight, levelFirst, extendable: extendableSides(measured) }) }
}
