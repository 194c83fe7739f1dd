import { isWarning, type Verdict } from '../../judge/verdict.ts'
import type { Outcome } from '../../rules/contract/outcome.ts'
import { html, type Markup } from './markup.ts'

/** How a portrait, or a rule on it, stands; the worst first. */
export const STANDINGS = ['fail', 'unsure', 'warning', 'pass'] as const
export type Standing = (typeof STANDINGS)[number]

export const WORDS: Readonly<Record<Standing, string>> = {
  fail: 'Fails',
  unsure: 'Unsure',
  warning: 'Passes with a warning',
  pass: 'Passes',
}

export function standingOf(verdict: Verdict, findings: readonly Outcome[]): Standing {
  if (verdict !== 'pass') return verdict
  return findings.some(isWarning) ? 'warning' : 'pass'
}

/** How a rule stands on a portrait: also `waived`, `known`, and `skip` where it does not apply. */
export type RuleStanding = Standing | 'waived' | 'known' | 'skip'

export function outcomeStanding(outcome: Outcome): RuleStanding {
  if (outcome.waiver && outcome.verdict !== 'pass') return 'waived'
  if (outcome.known) return 'known'
  return isWarning(outcome) ? 'warning' : outcome.verdict
}

/** What a reader should see first: misses, the worst first, then exceptions and what was there before a change. */
const OPEN = ['fail', 'unsure', 'warning', 'waived', 'known'] as const
export type Open = (typeof OPEN)[number]

/** The outcomes that are open in this order, each with how it stands. */
export function openOutcomes<O extends Outcome>(
  outcomes: readonly O[],
): { readonly standing: Open; readonly outcome: O }[] {
  return OPEN.flatMap((standing) =>
    outcomes
      .filter((outcome) => outcomeStanding(outcome) === standing)
      .map((outcome) => ({ standing, outcome })),
  )
}

export const RULE_WORDS: Readonly<Record<Open, string>> = {
  fail: 'Fails',
  unsure: 'Unsure',
  warning: 'Warning',
  waived: 'Exception',
  known: 'Known before',
}

// Told apart by shape, so that no verdict rests on color.
const SHAPES = {
  fail: 'M3 3 13 13M13 3 3 13',
  unsure: 'M8 2a6 6 0 1 1-.01 0M8 7.2v1.6',
  warning: 'M8 2.5 14 13.5H2ZM8 7v2.6',
  pass: 'M2.5 8.5 6.5 12.5 13.5 4',
  waived: 'M2.5 8.5 6.5 12.5 13.5 4M3 15H13',
  known: 'M8 2a6 6 0 1 1-.01 0M8 4.5V8H11',
  missing: 'M3 3H13V13H3ZM3 3 13 13',
  double: 'M2 2H10V10H2ZM6 12V14H14V6H12',
  absent: 'M3 8H13',
  perhaps: 'M5.5 5.5a2.5 2.5 0 1 1 3.6 2.3C8.3 8.2 8 8.7 8 9.7M8 12v1.6',
} as const
export type Shape = keyof typeof SHAPES

export function mark(shape: Shape): Markup {
  return html`<svg class="mark" viewBox="0 0 16 16" aria-hidden="true"><path d="${SHAPES[shape]}"/></svg>`
}

export function badge(standing: Standing): Markup {
  return html`<span class="badge ${standing}">${mark(standing)} ${WORDS[standing]}</span>`
}
