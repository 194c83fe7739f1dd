import pc from 'picocolors'
import stringWidth from 'string-width'
import type { Outcome } from '../rules/outcome.ts'
import { count } from '../rules/quantity.ts'
import { type Cell, sideBySide } from './columns.ts'
import { type FileReport, isWarning, type Report } from './report.ts'
import { forTerminal } from './safe.ts'
import { leftSentence, totalsSentence } from './sentences.ts'

export interface TableOptions {
  /** Width of the terminal. */
  readonly columns: number
  /** Whether to add ANSI colors; each color comes with a word. */
  readonly color: boolean
}

// Narrower than this nothing reads well; from the other on, the mend stands beside the reason.
const NARROWEST = 40
const WIDE = 120
const GAP = 2
const WORD = 4

/** The report for a terminal: what to mend, what to look at, warnings, then the passes and totals in a line each. */
export function table(report: Report, { columns, color }: TableOptions): string {
  const layout = { width: Math.max(NARROWEST, columns), colors: pc.createColors(color) }
  const { brand, version, file } = report.spec
  const files = report.files.map((one) => ({ ...one, shown: one.outcomes.filter(isShown) }))
  const of = `of ${count(report.totals.files, 'portrait')}`
  const failing = files.filter(({ verdict }) => verdict === 'fail')
  const unsure = files.filter(({ verdict }) => verdict === 'unsure')
  const warned = files.filter(({ verdict, shown }) => verdict === 'pass' && shown.length > 0)
  const passing = report.totals.pass
  const blocks = [
    paragraph(`${brand}, brand spec version ${version} (${file})`, layout),
    section(`To mend: ${failing.length} ${of}`, failing, layout),
    section(`To look at: ${unsure.length} ${of}`, unsure, layout),
    section(`Passing with warnings: ${warned.length} ${of}`, warned, layout),
    [
      ...(passing > 0 ? paragraph(`Passing: ${passing} ${of}`, layout) : []),
      ...paragraph(leftSentence(report) ?? '', layout),
      ...totalsLine(report, layout),
    ],
  ]
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`
}

interface Layout {
  readonly width: number
  readonly colors: ReturnType<typeof pc.createColors>
}
type Shown = FileReport & { readonly shown: readonly Outcome[] }

function isShown(outcome: Outcome): boolean {
  return outcome.verdict === 'fail' || outcome.verdict === 'unsure'
}

function section(heading: string, files: readonly Shown[], layout: Layout): string[] {
  if (files.length === 0) return []
  const ids = files.flatMap(({ shown }) => shown.map(({ rule }) => stringWidth(rule)))
  const widest = Math.max(0, ...ids)
  return [layout.colors.bold(heading), ...files.flatMap((file) => ['', ...fileBlock(file, widest, layout)])]
}

function fileBlock(file: Shown, widest: number, layout: Layout): string[] {
  const { width, colors } = layout
  const name = { text: forTerminal(file.file), width: width - 2, paint: colors.underline }
  const nothing = { text: 'No rule could be judged on this file.', width: width - 4 }
  return [
    ...sideBySide(2, 0, [name]),
    ...(file.shown.length === 0 ? sideBySide(4, 0, [nothing]) : []),
    ...file.shown.flatMap((outcome) => outcomeRows(outcome, widest, layout)),
  ]
}

function outcomeRows(outcome: Outcome, widest: number, { width, colors }: Layout): string[] {
  const [word, paint] = wordFor(outcome, colors)
  const head: Cell[] = [
    { text: word, width: WORD, paint },
    { text: outcome.rule, width: widest },
  ]
  const room = width - 4 - WORD - widest - 2 * GAP
  const reason = forTerminal(outcome.reason)
  const remedy = outcome.remedy === undefined ? undefined : `Mend: ${forTerminal(outcome.remedy)}`
  if (room < NARROWEST) {
    const text = { text: remedy === undefined ? reason : `${reason} ${remedy}`, width: width - 6 }
    return [...sideBySide(4, GAP, head), ...sideBySide(6, 0, [text])]
  }
  if (width >= WIDE && remedy !== undefined) {
    const half = Math.floor((room - GAP) / 2)
    return sideBySide(4, GAP, [
      ...head,
      { text: reason, width: room - GAP - half },
      { text: remedy, width: half },
    ])
  }
  const rows = sideBySide(4, GAP, [...head, { text: reason, width: room }])
  return remedy === undefined
    ? rows
    : [...rows, ...sideBySide(width - room, 0, [{ text: remedy, width: room }])]
}

function wordFor(outcome: Outcome, colors: Layout['colors']): [string, (text: string) => string] {
  if (isWarning(outcome)) return ['warn', colors.magenta]
  return outcome.verdict === 'fail' ? ['fail', colors.red] : ['look', colors.yellow]
}

function totalsLine(report: Report, { width, colors }: Layout): string[] {
  const paint = { pass: colors.green, fail: colors.red, unsure: colors.yellow }[report.verdict]
  const word = { pass: 'PASS', fail: 'FAIL', unsure: 'LOOK' }[report.verdict]
  const totals = { text: totalsSentence(report), width: width - WORD - GAP }
  return sideBySide(0, GAP, [{ text: word, width: WORD, paint: (line) => colors.bold(paint(line)) }, totals])
}

function paragraph(text: string, { width }: Layout): string[] {
  return text === '' ? [] : sideBySide(0, 0, [{ text: forTerminal(text), width }])
}
