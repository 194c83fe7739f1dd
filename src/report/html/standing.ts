import type { Outcome } from '../../rules/outcome.ts'
import { type FileReport, isWarning } from '../report.ts'
import { html, type Markup } from './markup.ts'

/** How a portrait, or a rule on it, stands; the worst first. */
export const STANDINGS = ['fail', 'unsure', 'warning', 'pass'] as const
export type Standing = (typeof STANDINGS)[number]

export const WORDS: Readonly<Record<Standing, string>> = {
  fail: 'Fails',
  unsure: 'Needs a look',
  warning: 'Passes with a warning',
  pass: 'Passes',
}

export function standingOf({ verdict, outcomes }: FileReport): Standing {
  if (verdict !== 'pass') return verdict
  return outcomes.some(isWarning) ? 'warning' : 'pass'
}

/** Of a rule; a rule that does not apply stands as nothing. */
export function outcomeStanding(outcome: Outcome): Standing | 'skip' {
  return isWarning(outcome) ? 'warning' : outcome.verdict
}

// Told apart by shape, so that no verdict rests on color: a cross, a ring with a dot, a triangle, a tick.
const SHAPES: Readonly<Record<Standing, string>> = {
  fail: 'M3 3 13 13M13 3 3 13',
  unsure: 'M8 2a6 6 0 1 1-.01 0M8 7.2v1.6',
  warning: 'M8 2.5 14 13.5H2ZM8 7v2.6',
  pass: 'M2.5 8.5 6.5 12.5 13.5 4',
}

export function mark(standing: Standing): Markup {
  return html`<svg class="mark" viewBox="0 0 16 16" aria-hidden="true"><path d="${SHAPES[standing]}"/></svg>`
}

export function badge(standing: Standing): Markup {
  return html`<span class="badge ${standing}">${mark(standing)} ${WORDS[standing]}</span>`
}
