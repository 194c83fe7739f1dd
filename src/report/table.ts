import pc from 'picocolors'
import stringWidth from 'string-width'
import type { Report } from '../judge/report.ts'
import { count } from '../text/quantity.ts'
import { sideBySide } from './columns.ts'
import { forTerminal } from './safe.ts'
import { extendsNote, leftSentence, partialSentence, totalsSentence, wholeSentence } from './sentences.ts'
import type { Shared } from './shared.ts'
import { deliveryBlocks } from './table-delivery.ts'
import { GAP, type Layout, NARROWEST, namedRows, outcomeRows, paragraph, WORD } from './table-rows.ts'
import { type Listed, type Section, type Telling, tellingOf } from './telling.ts'
import { moreRules, peopleSentence, SHORTENED, whoseFinding } from './top.ts'

export interface TableOptions {
  /** Width of the terminal. */
  readonly columns: number
  /** Whether to add ANSI colors; each color comes with a word. */
  readonly color: boolean
  /** Whether to tell every finding where it belongs, however many there are. */
  readonly all?: boolean
}

// The height of a classic terminal: of a longer report the top is out of sight.
const SCREEN = 24

/** The report for a terminal: the verdict, who is missing and which rules are missed; then what to fix, the worst first. */
export function table(report: Report, { columns, color, all = false }: TableOptions): string {
  const layout = { width: Math.max(NARROWEST, columns), colors: pc.createColors(color) }
  const { brand, version, file } = report.spec
  const telling = tellingOf(report, all)
  const { fail, unsure, pass } = telling.sections
  const of = `of ${count(report.totals.files, 'portrait')}`
  const say = (section: Section, one: string, many: string) =>
    `${section.files} ${of} ${section.files === 1 ? one : many}`
  const elsewhere =
    telling.shared.length > 0 ? 'many portraits together or the whole delivery' : 'the whole delivery'
  const verdict = verdictLines(report, layout)
  const blocks = [
    [
      ...verdict,
      ...paragraph(`${brand}, brand spec version ${version} (${file})${extendsNote(report.spec)}`, layout),
      ...paragraph(leftSentence(report) ?? '', layout),
      ...paragraph(partialSentence(report) ?? '', layout),
    ],
    paragraph(peopleSentence(report) ?? '', layout),
    rulesBlock(telling.rules, layout),
    sharedBlock(telling.shared, report, layout),
    sectionBlock(say(fail, 'needs work', 'need work'), fail, elsewhere, layout),
    sectionBlock(
      say(unsure, 'is unsure: check by eye', 'are unsure: check by eye'),
      unsure,
      elsewhere,
      layout,
    ),
    sectionBlock(say(pass, 'passes with warnings', 'pass with warnings'), pass, elsewhere, layout),
    ...deliveryBlocks(report, telling.whole, all, layout),
    paragraph(telling.isShort ? SHORTENED : '', layout),
  ].filter((block) => block.length > 0)
  const height = blocks.reduce((lines, block) => lines + block.length + 1, 0)
  return `${[...blocks, ...(height > SCREEN ? [verdict] : [])].map((block) => block.join('\n')).join('\n\n')}\n`
}

function verdictLines(report: Report, { width, colors }: Layout): string[] {
  const paint = { pass: colors.green, fail: colors.red, unsure: colors.yellow }[report.verdict]
  const word = { pass: 'PASS', fail: 'FAIL', unsure: 'UNSURE' }[report.verdict]
  const totals = [totalsSentence(report), wholeSentence(report)].filter((text) => text !== null).join(' ')
  return sideBySide(0, GAP, [
    { text: word, width: WORD, paint: (line) => colors.bold(paint(line)) },
    { text: totals, width: width - WORD - GAP },
  ])
}

function rulesBlock({ first: lines, others }: Telling['rules'], { width, colors }: Layout): string[] {
  if (lines.length === 0) return []
  const widest = (texts: readonly string[]) => Math.max(...texts.map((text) => stringWidth(text)))
  const rules = widest(lines.map(({ rule }) => rule))
  const files = widest(lines.map((line) => line.files))
  const rest = width - 2 - rules - files - 2 * GAP
  return [
    colors.bold('Rules missed, by number of portraits'),
    ...lines.flatMap((line) =>
      sideBySide(2, GAP, [
        { text: line.rule, width: rules },
        { text: line.files.padStart(files), width: files },
        { text: line.note, width: Math.max(1, rest) },
      ]),
    ),
    ...(others.length > 0 ? sideBySide(2, 0, [{ text: moreRules(others), width: width - 2 }]) : []),
  ]
}

function sharedBlock(shared: readonly Shared[], report: Report, layout: Layout): string[] {
  if (shared.length === 0) return []
  const widest = Math.max(...shared.map(({ outcome }) => stringWidth(outcome.rule)))
  const rows = shared.flatMap((one) => {
    const reason = `${whoseFinding(one, report)}: ${one.outcome.reason}`
    return outcomeRows({ ...one.outcome, reason }, widest, layout)
  })
  return [layout.colors.bold('The same finding in many portraits'), '', ...rows]
}

function sectionBlock(
  heading: string,
  { files, told, elsewhere }: Section,
  where: string,
  layout: Layout,
): string[] {
  if (files === 0) return []
  const ids = told.inFull.flatMap(({ shown }) => shown.map(({ rule }) => stringWidth(rule)))
  const widest = Math.max(0, ...ids)
  const which = files === 1 ? 'That is' : elsewhere === files ? 'All of them' : `${elsewhere} of them`
  const note = `${which} only because of findings on ${where}.`
  return [
    layout.colors.bold(heading),
    ...told.inFull.flatMap((file) => ['', ...fileBlock(file, widest, layout)]),
    ...namedRows(told.byName, 'portrait', layout),
    ...(elsewhere > 0 ? ['', ...sideBySide(2, 0, [{ text: note, width: layout.width - 2 }])] : []),
  ]
}

function fileBlock({ file, shown, unjudged }: Listed, widest: number, layout: Layout): string[] {
  const { width, colors } = layout
  const name = { text: forTerminal(file), width: width - 2, paint: colors.underline }
  const nothing = { text: 'No rule could be judged on this file.', width: width - 4 }
  return [
    ...sideBySide(2, 0, [name]),
    ...(unjudged ? sideBySide(4, 0, [nothing]) : []),
    ...shown.flatMap((outcome) => outcomeRows(outcome, widest, layout)),
  ]
}
