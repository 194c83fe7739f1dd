import { type Static, Type } from '@sinclair/typebox'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import type { Outcome } from '../rules/contract/outcome.ts'

/** Verdict on a file or on the whole delivery. */
export const Verdict = Type.Union([Type.Literal('pass'), Type.Literal('fail'), Type.Literal('unsure')], {
  description: '`unsure`: check by eye; it is never a pass.',
})
export type Verdict = Static<typeof Verdict>

/** Verdict by outcomes: the worst of those that are not advisory; `unsure` when nothing was judged. */
export function verdictOf(outcomes: readonly Outcome[]): Verdict {
  const judged = outcomes.some(({ verdict }) => verdict !== 'skip')
  return worstMiss(outcomes) ?? (judged ? 'pass' : 'unsure')
}

/**
 * Verdict on a file: the worst that any rule gives it, of the file or of the delivery. When no rule could judge the file
 * itself, a rule over the delivery that has nothing against it does not make it a pass.
 * @param about the outcomes over the delivery that name the file
 */
export function fileVerdict(own: readonly Outcome[], about: readonly DeliveryOutcome[]): Verdict {
  const [alone, among] = [worstMiss(own), worstMiss(about)]
  return alone === 'fail' || among === 'fail' ? 'fail' : (alone ?? among ?? verdictOf(own))
}

function worstMiss(outcomes: readonly Outcome[]): 'fail' | 'unsure' | null {
  let worst: 'unsure' | null = null
  for (const outcome of outcomes) {
    if (outcome.advisory || !isMiss(outcome)) continue
    if (outcome.verdict === 'fail') return 'fail'
    worst = 'unsure'
  }
  return worst
}

/** The outcomes over the delivery that name each file, by its path. */
export function byFile(
  outcomes: readonly DeliveryOutcome[],
): ReadonlyMap<string, readonly DeliveryOutcome[]> {
  const about = new Map<string, DeliveryOutcome[]>()
  for (const outcome of outcomes) {
    for (const file of new Set(outcome.files)) {
      const others = about.get(file)
      if (others) others.push(outcome)
      else about.set(file, [outcome])
    }
  }
  return about
}

/** What is said of a file by the rules on it and, where there is any, by those over the delivery. */
export function joined(own: readonly Outcome[], about: readonly Outcome[] | undefined): readonly Outcome[] {
  return about ? [...own, ...about] : own
}

/** An advisory rule that is missed, or could not be judged. */
export function isWarning(outcome: Outcome): boolean {
  return outcome.advisory && isMiss(outcome)
}

/** A failure or an unsure outcome that no exception covers and that was not there before the change that is judged. */
export function isMiss({ verdict, waiver, known }: Outcome): boolean {
  return (verdict === 'fail' || verdict === 'unsure') && waiver === undefined && known === undefined
}
