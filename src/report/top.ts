import type { Report } from '../judge/report.ts'
import type { RuleSummary } from '../judge/summary.ts'
import { count, listed } from '../text/quantity.ts'
import type { Shared } from './shared.ts'
import { fewOf } from './short-list.ts'

/** How many people there are, and whose portraits are not as they should be, in a sentence; null when names tell nobody. */
export function peopleSentence({ summary: { people }, delivery }: Report): string | null {
  if (people === null) return null
  const { expected, missing, incomplete, perhaps, double, unknown, undelivered } = people
  const parts = [
    [missing, 'missing'],
    [incomplete, 'without one of the deliverables'],
    [perhaps, 'perhaps under another name'],
    [double, 'double'],
    [unknown, 'not on the roster'],
  ] as const
  const shown = parts
    .filter(([names]) => names.length > 0)
    .map(([names, words]) => `${names.length} ${words} (${fewOf(names)})`)
  const nobody = undelivered.length > 0 ? ` Nobody has ${listed(undelivered, 'or')}.` : ''
  const hasRoster = delivery.outcomes.some(({ rule }) => rule === 'roster')
  const none = hasRoster ? 'none missing or double' : 'none double; only a roster could tell who is missing'
  return `${count(expected, 'person', 'people')}${shown.length > 0 ? `: ${shown.join('; ')}` : `, ${none}`}.${nobody}`
}

/** A rule that files miss: on how many of those it was judged on, and what to make of that. */
export interface RuleLine {
  readonly rule: string
  readonly missed: number
  /** "12 of 40". */
  readonly files: string
  /** The same as a share, 0..1. */
  readonly share: number
  /** The part of it that fails; the others are unsure. */
  readonly failing: number
  readonly note: string
}

/** The rules that files miss, those with most files first; none for a single file, whose findings say as much. */
export function ruleLines({ summary: { rules }, totals }: Report): RuleLine[] {
  if (totals.files < 2) return []
  return rules.map((one) => {
    const missed = one.fail + one.unsure
    return {
      rule: one.rule,
      missed,
      files: `${missed} of ${one.of}`,
      share: missed / one.of,
      failing: one.fail / one.of,
      note: noteOn(one),
    }
  })
}

/** Those that are left out: "24 more rules, each missed by at most 2 portraits". */
export function moreRules(others: readonly RuleLine[]): string {
  const most = Math.max(...others.map(({ missed }) => missed))
  return `${count(others.length, 'more rule')}, each missed by at most ${count(most, 'portrait')}`
}

function noteOn({ advisory, fail, unsure, widespread }: RuleSummary): string {
  const parts = [
    ...(widespread ? ['Is the spec right?'] : []),
    ...(unsure > 0 ? [fail === 0 ? 'Unsure: check by eye.' : `${unsure} unsure.`] : []),
    ...(advisory ? ['Warns only.'] : []),
  ]
  return parts.join(' ')
}

/** Whom a finding that is told once is about: "All 100 portraits", "12 portraits (a.jpg, ...)". */
export function whoseFinding({ files }: Shared, { totals }: Report): string {
  const portraits = count(files.length, 'portrait')
  return files.length === totals.files ? `All ${portraits}` : `${portraits} (${fewOf(files)})`
}

export const SHORTENED = 'Long lists are shortened here; --all tells every finding in full.'
