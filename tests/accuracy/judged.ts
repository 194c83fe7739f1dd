import type { Verdict } from '../../src/rules/contract/outcome.ts'

/** One question put to one portrait: what the truth says, what the rule said, and how far the number was off. */
export interface Judged {
  /** The rule, with a word on which of its options where it has several. */
  readonly measure: string
  /** Of the sitter: "skin 7", "hair long", "headwear turban". */
  readonly groups: readonly string[]
  readonly should: 'pass' | 'fail'
  readonly verdict: Verdict
  /** Measured less true, in the measure's unit; null where not measured or where the truth is no number. */
  readonly error: number | null
  /** Mean absolute error up to which groups are not told apart: less than can be seen or than the truth is known to. */
  readonly negligible: number
}

/** What became of the questions of one measure in one group. */
export interface Tally {
  readonly n: number
  readonly falsePasses: number
  readonly falseFails: number
  readonly unsure: number
  /** Mean absolute error; null without a number. */
  readonly meanError: number | null
}

const KINDS = ['wrong', 'unsure', 'error'] as const
type Kind = (typeof KINDS)[number]

interface GroupRow extends Tally {
  readonly group: string
  /** In what it is over 1.5 times the mean of all. */
  readonly over: readonly Kind[]
}

export interface MeasureTable {
  readonly measure: string
  readonly all: Tally
  readonly rows: readonly GroupRow[]
}

const MOST_OVER_MEAN = 1.5
// Fewer questions, or the answers to one picture alone (two at most), tell no groups apart.
const LEAST_QUESTIONS = 10
const LEAST_ANSWERS = 3

/** For each measure, in the order in which they come: all together, and each group. */
export function tables(judged: readonly Judged[]): MeasureTable[] {
  return [...new Set(judged.map(({ measure }) => measure))].map((measure) => {
    const own = judged.filter((one) => one.measure === measure)
    const all = tally(own)
    const negligible = Math.max(...own.map((one) => one.negligible))
    const groups = [...new Set(own.flatMap((one) => one.groups))].sort(byNumber)
    const rows = groups.map((group) => {
      const part = tally(own.filter((one) => one.groups.includes(group)))
      return { group, ...part, over: overMean(part, all, negligible) }
    })
    return { measure, all, rows }
  })
}

function tally(judged: readonly Judged[]): Tally {
  const errors = judged.flatMap(({ error }) => (error === null ? [] : [Math.abs(error)]))
  const count = (is: (one: Judged) => boolean) => judged.filter(is).length
  return {
    n: judged.length,
    // A rule that finds nothing to judge lets the file pass.
    falsePasses: count(
      ({ should, verdict }) => should === 'fail' && (verdict === 'pass' || verdict === 'skip'),
    ),
    falseFails: count(({ should, verdict }) => should === 'pass' && verdict === 'fail'),
    unsure: count(({ verdict }) => verdict === 'unsure'),
    meanError: errors.length === 0 ? null : errors.reduce((sum, error) => sum + error, 0) / errors.length,
  }
}

function overMean(part: Tally, all: Tally, negligible: number): Kind[] {
  if (part.n < LEAST_QUESTIONS) return []
  const over: Kind[] = KINDS.slice(0, 2).filter((kind) => {
    const answers = answersOf(part, kind)
    return answers >= LEAST_ANSWERS && answers / part.n > (MOST_OVER_MEAN * answersOf(all, kind)) / all.n
  })
  const [error, mean] = [part.meanError ?? 0, all.meanError ?? 0]
  return error > negligible && error > MOST_OVER_MEAN * mean ? [...over, 'error'] : over
}

function answersOf({ falsePasses, falseFails, unsure }: Tally, kind: Kind): number {
  return kind === 'unsure' ? unsure : falsePasses + falseFails
}

function byNumber(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true })
}
