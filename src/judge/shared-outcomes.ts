import type { Outcome } from '../rules/contract/outcome.ts'

/**
 * Holds what is told alike of many files, such as that each is a JPEG, once for all of them: half of the memory of the outcomes of a
 * large delivery, and of the time in which it is collected.
 */
export class SharedOutcomes {
  /** By rule, what was last told without a number or advice. */
  readonly #last = new Map<string, Outcome>()

  /** The same outcomes, each as the one before of its rule where that says the same. */
  share(outcomes: readonly Outcome[]): readonly Outcome[] {
    return outcomes.map((outcome) => {
      if (!isPlain(outcome)) return outcome
      const last = this.#last.get(outcome.rule)
      if (last && isSame(last, outcome)) return last
      this.#last.set(outcome.rule, outcome)
      return outcome
    })
  }
}

/** Whether it is all told by its texts. */
function isPlain({ verdict, fix, figure, export: settings, crop, renames }: Outcome): boolean {
  const isSettled = verdict === 'pass' || verdict === 'skip'
  return isSettled && !fix && !figure && !settings && !crop && !renames
}

function isSame(one: Outcome, other: Outcome): boolean {
  return (
    one.verdict === other.verdict &&
    one.advisory === other.advisory &&
    one.measured === other.measured &&
    one.expected === other.expected &&
    one.reason === other.reason
  )
}
