import pc from 'picocolors'
import stringWidth from 'string-width'
import type { FileReport, Report } from '../judge/report.ts'
import { isMiss } from '../judge/verdict.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { count } from '../text/quantity.ts'
import { sideBySide } from './columns.ts'
import { forTerminal } from './safe.ts'
import { extendsNote, leftSentence, partialSentence, totalsSentence, wholeSentence } from './sentences.ts'
import { deliveryBlocks } from './table-delivery.ts'
import { GAP, type Layout, NARROWEST, outcomeRows, paragraph, WORD } from './table-rows.ts'
import { toldIn, unjudgedFiles } from './told.ts'

export interface TableOptions {
  /** Width of the terminal. */
  readonly columns: number
  /** Whether to add ANSI colors; each color comes with a word. */
  readonly color: boolean
}

/** The report for a terminal: what to fix, what to check by eye, warnings, then the passes and totals in a line each. */
export function table(report: Report, { columns, color }: TableOptions): string {
  const layout = { width: Math.max(NARROWEST, columns), colors: pc.createColors(color) }
  const { brand, version, file } = report.spec
  const { ofFiles, ofWhole } = toldIn(report)
  const unjudged = unjudgedFiles(report)
  const files = report.files.map((one) => ({
    ...one,
    shown: ofFiles.get(one.file)?.filter(isMiss) ?? [],
    unjudged: unjudged.has(one.file),
  }))
  const of = `of ${count(report.totals.files, 'portrait')}`
  const failing = files.filter(({ verdict }) => verdict === 'fail')
  const unsure = files.filter(({ verdict }) => verdict === 'unsure')
  const warned = files.filter(({ verdict, shown }) => verdict === 'pass' && shown.length > 0)
  const passing = report.totals.pass
  const blocks = [
    paragraph(`${brand}, brand spec version ${version} (${file})${extendsNote(report.spec)}`, layout),
    section(`${failing.length} ${of} ${failing.length === 1 ? 'needs' : 'need'} work`, failing, layout),
    section(
      `${unsure.length} ${of} ${unsure.length === 1 ? 'is' : 'are'} unsure: check by eye`,
      unsure,
      layout,
    ),
    section(
      `${warned.length} ${of} ${warned.length === 1 ? 'passes' : 'pass'} with warnings`,
      warned,
      layout,
    ),
    ...deliveryBlocks(report, ofWhole, layout),
    [
      ...(passing > 0 ? paragraph(`${passing} ${of} ${passing === 1 ? 'passes' : 'pass'}.`, layout) : []),
      ...paragraph(leftSentence(report) ?? '', layout),
      ...paragraph(partialSentence(report) ?? '', layout),
      ...paragraph(wholeSentence(report) ?? '', layout),
      ...totalsLine(report, layout),
    ],
  ]
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`
}

type Shown = FileReport & { readonly shown: readonly Outcome[]; readonly unjudged: boolean }

function section(heading: string, files: readonly Shown[], layout: Layout): string[] {
  if (files.length === 0) return []
  const listed = files.filter(({ shown, unjudged }) => shown.length > 0 || unjudged)
  const ids = listed.flatMap(({ shown }) => shown.map(({ rule }) => stringWidth(rule)))
  const widest = Math.max(0, ...ids)
  const rest = files.length - listed.length
  const note = `${rest === files.length ? 'All of them' : `${rest} of them`} by what is told of the delivery as a whole.`
  return [
    layout.colors.bold(heading),
    ...listed.flatMap((file) => ['', ...fileBlock(file, widest, layout)]),
    ...(rest > 0 ? ['', ...sideBySide(2, 0, [{ text: note, width: layout.width - 2 }])] : []),
  ]
}

function fileBlock(file: Shown, widest: number, layout: Layout): string[] {
  const { width, colors } = layout
  const name = { text: forTerminal(file.file), width: width - 2, paint: colors.underline }
  const nothing = { text: 'No rule could be judged on this file.', width: width - 4 }
  return [
    ...sideBySide(2, 0, [name]),
    ...(file.unjudged ? sideBySide(4, 0, [nothing]) : []),
    ...file.shown.flatMap((outcome) => outcomeRows(outcome, widest, layout)),
  ]
}

function totalsLine(report: Report, { width, colors }: Layout): string[] {
  const paint = { pass: colors.green, fail: colors.red, unsure: colors.yellow }[report.verdict]
  const word = { pass: 'PASS', fail: 'FAIL', unsure: 'UNSURE' }[report.verdict]
  const totals = { text: totalsSentence(report), width: width - WORD - GAP }
  return sideBySide(0, GAP, [{ text: word, width: WORD, paint: (line) => colors.bold(paint(line)) }, totals])
}
