import type { Report } from '../judge/report.ts'
import { isMiss, isWarning } from '../judge/verdict.ts'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { count } from '../text/quantity.ts'
import { markdownMatrix } from './markdown-matrix.ts'
import { forMarkdown } from './safe.ts'
import {
  acceptedOf,
  exceptionSentence,
  extendsNote,
  knownHeading,
  knownOf,
  leftSentence,
  partialSentence,
  totalsSentence,
  verdictSentence,
  wholeSentence,
} from './sentences.ts'
import { fewOf } from './short-list.ts'
import { sinceLines, sinceSentence } from './since.ts'
import { type Cut, type Listed, type Named, type Telling, tellingOf } from './telling.ts'
import { moreRules, peopleSentence, SHORTENED, whoseFinding } from './top.ts'

export interface MarkdownOptions {
  /** Whether to tell every finding where it belongs, however many there are. */
  readonly all?: boolean
  /** A step summary on GitHub holds 1 MiB at most and is refused whole beyond it; this leaves room for the rest. */
  readonly mostBytes?: number
}

/** The report as a page of GitHub Flavored Markdown, for the summary of a pull request. */
export function markdown(report: Report, { all = false, mostBytes = 900_000 }: MarkdownOptions = {}): string {
  const { brand, version, file } = report.spec
  const telling = tellingOf(report, all)
  const rows = rowsOf(telling, report)
  const room = { bytes: mostBytes }
  const sections = [
    `## ${verdictSentence(report)}`,
    [
      `Brand spec: ${forMarkdown(brand)}, version ${version} (${forMarkdown(file)})${forMarkdown(extendsNote(report.spec))}.`,
      totalsSentence(report),
      wholeSentence(report),
      partialSentence(report),
      leftSentence(report),
    ]
      .filter((text) => text !== null)
      .join(' '),
    forMarkdown(peopleSentence(report) ?? ''),
    ...rulesGrid(telling.rules),
    ...grid('Need work', ['Finding', 'Fix'], rows('fail'), room),
    ...grid('Unsure: check by eye', ['Why'], rows('unsure'), room),
    ...grid('Warnings', ['Finding', 'Fix'], rows('warning'), room),
    ...(report.delivery.matrix ? markdownMatrix(report.delivery.matrix, all, room) : []),
    ...grid(knownHeading(knownOf(report).length), ['Finding'], knownRows(report), room),
    ...grid('Exceptions', ['Until when, by whom and why'], exceptionRows(report), room),
    ...report.waivers
      .filter(({ state }) => state !== 'used')
      .map((one) => forMarkdown(exceptionSentence(one))),
    ...(report.since ? markdownSince(report.since) : []),
    telling.isShort ? SHORTENED : '',
  ]
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`
}

function rulesGrid({ first: lines, others }: Telling['rules']): string[] {
  if (lines.length === 0) return []
  const rows = lines.map(({ rule, files, note }) => line([rule, files, note]))
  const grid = [line(['Rule missed', 'Portraits', '']), line(['---', '---', '---']), ...rows].join('\n')
  return others.length === 0 ? [grid] : [grid, `${moreRules(others)}.`]
}

type Kind = 'fail' | 'unsure' | 'warning'
interface Row {
  readonly kind: Kind
  readonly cells: readonly string[]
}

/** Of the delivery, of many files, of each file; those told by name alone come last. */
function rowsOf({ whole, shared, sections }: Telling, report: Report): (kind: Kind) => (readonly string[])[] {
  const { fail, unsure, pass } = sections
  const rows = [
    ...whole.inFull.flatMap((outcome) => rowOf(aboutText(outcome), outcome)),
    ...shared.flatMap((one) => rowOf(whoseFinding(one, report), one.outcome)),
    ...[fail, unsure, pass].flatMap(({ told }) => fileRows(told)),
    ...namedRows(whole.byName, 'fail'),
    ...namedRows(fail.told.byName, 'fail'),
    ...namedRows(unsure.told.byName, 'unsure'),
    ...namedRows(pass.told.byName, 'warning'),
  ]
  return (kind) => rows.filter((row) => row.kind === kind).map(({ cells }) => cells)
}

// The reason names the others.
const MOST_NAMED = 4

function aboutText({ people, files }: DeliveryOutcome): string {
  const named = [...people, ...files]
  const more = named.length - MOST_NAMED
  return [...named.slice(0, MOST_NAMED), ...(more > 0 ? [`${more} more`] : [])].join(', ') || 'The delivery'
}

function fileRows({ inFull }: Cut<Listed>): Row[] {
  return inFull.flatMap(({ file, shown, unjudged }) => {
    const cells = [forMarkdown(file), '', 'No rule could be judged on this file.']
    const rows = shown.flatMap((outcome) => rowOf(file, outcome))
    return unjudged ? [...rows, { kind: 'unsure' as const, cells }] : rows
  })
}

function namedRows(byName: readonly Named[], kind: Kind): Row[] {
  return byName.map(({ rules, names }) => {
    const cells = [forMarkdown(fewOf(names)), rules, '']
    return { kind, cells: kind === 'unsure' ? cells : [...cells, ''] }
  })
}

function exceptionRows(report: Report): string[][] {
  return acceptedOf(report).map(({ rule, about, text }) => [forMarkdown(about), rule, forMarkdown(text)])
}

function knownRows(report: Report): string[][] {
  return knownOf(report).map((outcome) => [
    forMarkdown(aboutText(outcome)),
    outcome.rule,
    forMarkdown(outcome.reason),
  ])
}

function markdownSince(since: NonNullable<Report['since']>): string[] {
  const lines = sinceLines(since).map((text) => `- ${forMarkdown(text)}`)
  return [`### ${forMarkdown(sinceSentence(since))}`, lines.join('\n')]
}

function rowOf(about: string, outcome: Outcome): Row[] {
  const kind = kindOf(outcome)
  if (kind === null) return []
  const { rule, reason, fix } = outcome
  const cells = [forMarkdown(about), rule, forMarkdown(reason)]
  return [{ kind, cells: kind === 'unsure' ? cells : [...cells, forMarkdown(fix ?? '')] }]
}

function kindOf(outcome: Outcome): Kind | null {
  if (!isMiss(outcome)) return null
  if (isWarning(outcome)) return 'warning'
  return outcome.verdict === 'fail' || outcome.verdict === 'unsure' ? outcome.verdict : null
}

/** A heading and a table, as many rows as there is room for; nothing when there are none. */
function grid(
  title: string,
  heads: readonly string[],
  rows: readonly (readonly string[])[],
  room: { bytes: number },
): string[] {
  if (rows.length === 0) return []
  const columns = ['About', 'Rule', ...heads]
  const lines = [line(columns), line(columns.map(() => '---'))]
  let kept = 0
  for (const row of rows) {
    const text = line(row)
    room.bytes -= Buffer.byteLength(text) + 1
    if (room.bytes < 0) break
    lines.push(text)
    kept++
  }
  const missing = rows.length - kept
  const rest = `${count(missing, 'more row')}, left out because a summary is limited to 1 MiB; the JSON report has them all.`
  return [`### ${title}`, lines.join('\n'), ...(missing > 0 ? [rest] : [])]
}

function line(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`
}
