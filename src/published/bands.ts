import type { Spec } from '../brand-spec/spec.ts'
import { judgeFile } from '../judge/judge.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import { RULES } from '../rules/index.ts'
import { listed } from '../text/quantity.ts'
import { quoted } from '../text/quoted.ts'
import { sizeText } from '../text/size.ts'
import type { Picture } from './publication.ts'

/** Rules that a crop decides, and that hold at any size. */
const BANDS = RULES.filter(
  ({ dependsOn, id }) => dependsOn === 'crop' && id !== 'pixel-size' && id !== 'backdrop-edge',
)

/** What a new crop has taken out of the bands that the approved file is in. */
export function bandProblems(measured: Measurements, { name, measured: before }: Picture, spec: Spec) {
  const missed = (one: Measurements, verdict: 'fail' | 'unsure') =>
    judgeFile({ measured: one, name }, spec, BANDS).filter(
      (outcome) => outcome.verdict === verdict && !outcome.advisory,
    )
  const known = new Set([...missed(before, 'fail'), ...missed(before, 'unsure')].map(({ rule }) => rule))
  const isNew = ({ rule }: { rule: string }) => !known.has(rule)
  const failing = missed(measured, 'fail').filter(isNew)
  const open = missed(measured, 'unsure').filter(isNew)
  const told: { verdict: 'fail' | 'unsure'; message: string }[] = []
  if (failing.length > 0)
    told.push({
      verdict: 'fail',
      message: `It was cropped anew and no longer meets ${listed(failing.map(({ rule }) => rule))}: ${failing.map(({ reason }) => reason).join(' ')} Show ${quoted(name.path)} as it is.`,
    })
  if (open.length > 0)
    told.push({
      verdict: 'unsure',
      message: `Whether it still meets ${listed(open.map(({ rule }) => rule))} could not be told; check by eye.`,
    })
  return told
}

/** That a file was made larger than the approved one, in a sentence; null when it was not. */
export function largerProblem(
  { widthPx, heightPx }: Measurements,
  { name, measured }: Picture,
): string | null {
  if (!widthPx || !heightPx || !measured.widthPx || !measured.heightPx) return null
  if (widthPx <= measured.widthPx || heightPx <= measured.heightPx) return null
  return `It was enlarged to ${sizeText({ widthPx, heightPx })} from ${sizeText(measured)}, which makes it soft. Show ${quoted(name.path)} at its size or smaller.`
}
