import type { Outcome } from '../rules/contract/outcome.ts'

/**
 * Holds what is told alike of many files, such as that each is a JPEG, once for all of them: most of the memory of the outcomes of a
 * large delivery, and of the time in which it is collected.
 */
export class SharedOutcomes {
  readonly #detailed: boolean
  /** By rule, what was last told without a number or advice. */
  readonly #last = new Map<string, Outcome>()

  /** @param detailed whether anybody reads what passes in words; else it is held without */
  constructor(detailed = true) {
    this.#detailed = detailed
  }

  /** The same outcomes, each as the one before of its rule where that says the same. */
  share(outcomes: readonly Outcome[]): readonly Outcome[] {
    return outcomes.map((outcome) => {
      if (!isPlain(outcome)) return outcome
      const isBrief = !this.#detailed && outcome.verdict === 'pass'
      if (outcome.figure && !isBrief) return outcome
      const last = this.#last.get(outcome.rule)
      if (last && (isBrief ? isWordless(last, outcome) : isSame(last, outcome))) return last
      const held = isBrief ? wordless(outcome) : outcome
      this.#last.set(outcome.rule, held)
      return held
    })
  }
}

function wordless({ rule, advisory, verdict }: Outcome): Outcome {
  return { rule, advisory, verdict, measured: null, expected: null, reason: '' }
}

function isWordless(one: Outcome, { verdict, advisory }: Outcome): boolean {
  return one.verdict === verdict && one.advisory === advisory && one.reason === ''
}

/** Whether it is all told by its texts and its number. */
function isPlain({ verdict, fix, export: settings, crop, renames }: Outcome): boolean {
  const isSettled = verdict === 'pass' || verdict === 'skip'
  return isSettled && !fix && !settings && !crop && !renames
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
