import type pc from 'picocolors'
import { isWarning } from '../judge/verdict.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { type Cell, sideBySide } from './columns.ts'
import { forTerminal } from './safe.ts'

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
