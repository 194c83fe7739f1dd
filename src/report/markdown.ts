import type { Report } from '../judge/report.ts'
import { isMiss, isWarning } from '../judge/verdict.ts'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { count } from '../text/quantity.ts'
import { grouped } from './grouped.ts'
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
import { sinceLines, sinceSentence } from './since.ts'
import { unjudgedFiles } from './told.ts'

// A step summary on GitHub holds 1 MiB at most and is refused whole beyond it; this leaves room for the rest.
const MOST_BYTES = 900_000

/** The report as a page of GitHub Flavored Markdown, for the summary of a pull request. */
export function markdown(report: Report, mostBytes = MOST_BYTES): string {
  const { brand, version, file } = report.spec
  const rows = rowsOf(report)
  const room = { bytes: mostBytes }
  const sections = [
    `## ${verdictSentence(report)}`,
    `Brand spec: ${forMarkdown(brand)}, version ${version} (${forMarkdown(file)})${forMarkdown(extendsNote(report.spec))}`,
    ...grid('Need work', ['Finding', 'Fix'], rows('fail'), room),
    ...grid('Unsure: check by eye', ['Why'], rows('unsure'), room),
    ...grid('Warnings', ['Finding', 'Fix'], rows('warning'), room),
    ...(report.delivery.matrix ? markdownMatrix(report.delivery.matrix, room) : []),
    ...grid(knownHeading(knownOf(report).length), ['Finding'], knownRows(report), room),
    ...grid('Exceptions', ['Until when, by whom and why'], exceptionRows(report), room),
    ...report.waivers
      .filter(({ state }) => state !== 'used')
      .map((one) => forMarkdown(exceptionSentence(one))),
    ...(report.since ? markdownSince(report.since) : []),
    totalsSentence(report),
    partialSentence(report) ?? '',
    wholeSentence(report) ?? '',
    leftSentence(report) ?? '',
  ]
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`
}

type Kind = 'fail' | 'unsure' | 'warning'

function rowsOf(report: Report): (kind: Kind) => string[][] {
  const unjudged = unjudgedFiles(report)
  const all = report.files.flatMap(({ file, outcomes }) => {
    const shown = outcomes.flatMap((outcome) => {
      const kind = kindOf(outcome)
      return kind === null ? [] : [{ kind, cells: cellsOf(file, outcome, kind) }]
    })
    const cells = [forMarkdown(file), '', 'No rule could be judged on this file.']
    return unjudged.has(file) ? [...shown, { kind: 'unsure' as const, cells }] : shown
  })
  const whole = grouped(report.delivery.outcomes).flatMap((outcome) => {
    const kind = kindOf(outcome)
    return kind === null ? [] : [{ kind, cells: cellsOf(aboutText(outcome), outcome, kind) }]
  })
  return (kind) => [...whole, ...all].filter((row) => row.kind === kind).map(({ cells }) => cells)
}

// The reason names the others.
const MOST_NAMED = 4

function aboutText({ people, files }: DeliveryOutcome): string {
  const named = [...people, ...files]
  const more = named.length - MOST_NAMED
  return [...named.slice(0, MOST_NAMED), ...(more > 0 ? [`${more} more`] : [])].join(', ') || 'The delivery'
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

function kindOf(outcome: Outcome): Kind | null {
  if (!isMiss(outcome)) return null
  if (isWarning(outcome)) return 'warning'
  return outcome.verdict === 'fail' || outcome.verdict === 'unsure' ? outcome.verdict : null
}

function cellsOf(file: string, { rule, reason, fix }: Outcome, kind: Kind): string[] {
  const cells = [forMarkdown(file), rule, forMarkdown(reason)]
  return kind === 'unsure' ? cells : [...cells, forMarkdown(fix ?? '')]
}

/** A heading and a table, as many rows as there is room for; nothing when there are none. */
function grid(title: string, heads: readonly string[], rows: string[][], room: { bytes: number }): string[] {
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
