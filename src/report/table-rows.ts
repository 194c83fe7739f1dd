import type pc from 'picocolors'
import { isWarning } from '../judge/verdict.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { count } from '../text/quantity.ts'
import { type Cell, sideBySide } from './columns.ts'
import { forTerminal } from './safe.ts'
import { fewOf, shortened } from './short-list.ts'
import type { Named } from './telling.ts'

// Narrower than this nothing reads well; from the other on, the fix stands beside the reason.
export const NARROWEST = 40
const WIDE = 120
export const GAP = 2
export const WORD = 6

/** The width to lay out for, and how words are painted. */
export interface Layout {
  readonly width: number
  readonly colors: ReturnType<typeof pc.createColors>
}
/** One outcome: a word, the rule, and the sentences beside or below. @param widest width of the longest rule */
export function outcomeRows(outcome: Outcome, widest: number, { width, colors }: Layout): string[] {
  const [word, paint] = wordFor(outcome, colors)
  const head: Cell[] = [
    { text: word, width: WORD, paint },
    { text: outcome.rule, width: widest },
  ]
  const room = width - 4 - WORD - widest - 2 * GAP
  const reason = forTerminal(outcome.reason)
  const fix = outcome.fix === undefined ? undefined : `Fix: ${forTerminal(outcome.fix)}`
  if (room < NARROWEST) {
    const text = { text: fix === undefined ? reason : `${reason} ${fix}`, width: width - 6 }
    return [...sideBySide(4, GAP, head), ...sideBySide(6, 0, [text])]
  }
  if (width >= WIDE && fix !== undefined) {
    const half = Math.floor((room - GAP) / 2)
    return sideBySide(4, GAP, [
      ...head,
      { text: reason, width: room - GAP - half },
      { text: fix, width: half },
    ])
  }
  const rows = sideBySide(4, GAP, [...head, { text: reason, width: room }])
  return fix === undefined ? rows : [...rows, ...sideBySide(width - room, 0, [{ text: fix, width: room }])]
}

function wordFor(outcome: Outcome, colors: Layout['colors']): [string, (text: string) => string] {
  if (isWarning(outcome)) return ['warn', colors.magenta]
  return outcome.verdict === 'fail' ? ['fail', colors.red] : ['unsure', colors.yellow]
}

/** A text from the left margin on; nothing when it is empty. */
export function paragraph(text: string, { width }: Layout): string[] {
  return text === '' ? [] : sideBySide(0, 0, [{ text: forTerminal(text), width }])
}

/** What is not told in full: a line for those that miss the same rules. @param noun what they are, one of them */
export function namedRows(byName: readonly Named[], noun: string, { width }: Layout): string[] {
  if (byName.length === 0) return []
  const { first, others } = shortened(byName, false)
  const number = (groups: readonly Named[]) => groups.reduce((sum, { names }) => sum + names.length, 0)
  const lines = [
    ...first.map(({ rules, names }) => `${rules}: ${fewOf(names)}`),
    ...(others.length > 0 ? [`other rules: ${number(others)} more`] : []),
  ]
  return [
    '',
    ...sideBySide(2, 0, [{ text: `${count(number(byName), `more ${noun}`)}:`, width: width - 2 }]),
    ...lines.flatMap((text) => sideBySide(4, 0, [{ text: forTerminal(text), width: width - 4 }])),
  ]
}
