import stringWidth from 'string-width'
import { type CellState, isExpected, type Matrix } from '../judge/matrix.ts'
import type { Report } from '../judge/report.ts'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import { count } from '../text/quantity.ts'
import { type Cell, sideBySide } from './columns.ts'
import { grouped } from './grouped.ts'
import { type MatrixLine, matrixLines, unplacedSentence } from './matrix-lines.ts'
import { forTerminal } from './safe.ts'
import { acceptedOf, exceptionSentence, knownHeading, knownOf } from './sentences.ts'
import { shortened } from './short-list.ts'
import { sinceLines, sinceSentence } from './since.ts'
import { GAP, type Layout, namedRows, outcomeRows } from './table-rows.ts'
import type { Cut } from './telling.ts'

/** What a terminal shows of the delivery as a whole: its misses, who has what, and the exceptions. */
export function deliveryBlocks(
  report: Report,
  { inFull, byName }: Cut<DeliveryOutcome>,
  all: boolean,
  layout: Layout,
): string[][] {
  const { matrix } = report.delivery
  const widest = Math.max(0, ...inFull.map(({ rule }) => stringWidth(rule)))
  return [
    ...(inFull.length === 0
      ? []
      : [
          [
            layout.colors.bold('The delivery as a whole'),
            '',
            ...inFull.flatMap((outcome) => outcomeRows(outcome, widest, layout)),
            ...namedRows(byName, 'finding', layout),
          ],
        ]),
    ...(matrix === null ? [] : [matrixBlock(matrix, all, layout)]),
    knownBlock(report, all, layout),
    exceptionsBlock(report, all, layout),
    ...(report.since ? [listBlock(sinceSentence(report.since), sinceLines(report.since), true, layout)] : []),
  ]
}

const LONGEST_NAME = 36
const LONGEST_HEAD = 12
const WORDS: Readonly<Record<CellState, string>> = {
  pass: 'pass',
  fail: 'fail',
  unsure: 'unsure',
  missing: 'MISSING',
  double: 'DOUBLE',
  absent: 'absent',
  perhaps: 'maybe?',
}

function matrixBlock(matrix: Matrix, all: boolean, layout: Layout): string[] {
  const { deliverables, rows } = matrix
  const expected = rows.filter(isExpected)
  const fine = expected.filter(({ cells }) => cells.every(({ state }) => state === 'pass')).length
  const absent = rows.filter((row) => row.absent !== null).length
  const complete = `${fine} of ${count(expected.length, 'person', 'people')} complete`
  const lines = matrixLines(matrix, all)
  const heads = deliverables.length > 0 ? deliverables : ['portrait']
  const unknown = unplacedSentence(matrix)
  return [
    ...sideBySide(0, GAP, [
      {
        text: `Who has what: ${complete}${absent > 0 ? `; ${absent} absent` : ''}`,
        ...{ width: layout.width, paint: layout.colors.bold },
      },
    ]),
    ...columnGroups(heads, lines, layout).flatMap((group) => ['', ...grid(group, heads, lines, layout)]),
    ...(unknown === null ? [] : ['', ...sideBySide(2, 0, [{ text: unknown, width: layout.width - 2 }])]),
  ]
}

/** Leaves room for one column at least. */
function nameWidth(heads: readonly string[], lines: readonly MatrixLine[], { width }: Layout): number {
  const room = width - 2 - GAP - Math.max(...heads.map(headWidth))
  return Math.min(LONGEST_NAME, room, Math.max(0, ...lines.map((line) => stringWidth(nameOf(line)))))
}

function nameOf({ row: { person, listed, perhaps }, people }: MatrixLine): string {
  const name = people > 1 ? `${people} people alike` : forTerminal(person)
  const guess = perhaps === null ? '' : ` (${forTerminal(perhaps)}?)`
  return `${name}${listed ? guess : ' (not on the roster)'}`
}

function headWidth(head: string): number {
  return Math.min(LONGEST_HEAD, Math.max(WORDS.missing.length, stringWidth(forTerminal(head))))
}

/** The columns by their index, in groups of as many as stand side by side. */
function columnGroups(heads: readonly string[], lines: readonly MatrixLine[], layout: Layout): number[][] {
  const groups: number[][] = []
  let room = 0
  for (const [index, head] of heads.entries()) {
    const needs = headWidth(head) + GAP
    const group = groups.at(-1)
    if (group && room >= needs) group.push(index)
    else {
      groups.push([index])
      room = layout.width - 2 - nameWidth(heads, lines, layout)
    }
    room -= needs
  }
  return groups
}

function grid(
  group: readonly number[],
  heads: readonly string[],
  lines: readonly MatrixLine[],
  layout: Layout,
): string[] {
  if (lines.length === 0) return []
  const names = nameWidth(heads, lines, layout)
  const cells = group.map((index) => heads[index] ?? '')
  const head = cells.map((text): Cell => ({ text: forTerminal(text), width: headWidth(text) }))
  return [
    ...sideBySide(2, GAP, [{ text: '', width: names }, ...head]),
    ...lines.flatMap((line) => {
      const { row } = line
      const name = { text: nameOf(line), width: names }
      const away = row.absent !== null && row.cells.every(({ state }) => state === 'absent')
      const reason = {
        text: `absent: ${forTerminal(row.absent ?? '')}`,
        width: layout.width - 2 - names - GAP,
      }
      const states = group.map((index, at) =>
        cellOf(row.cells[index]?.state ?? 'missing', cells[at] ?? '', layout),
      )
      return sideBySide(2, GAP, [name, ...(away ? [reason] : states)])
    }),
  ]
}

function cellOf(state: CellState, head: string, { colors }: Layout): Cell {
  const paint = {
    pass: colors.green,
    fail: colors.red,
    unsure: colors.yellow,
    missing: colors.red,
    double: colors.red,
    absent: colors.dim,
    perhaps: colors.red,
  }[state]
  return { text: WORDS[state], width: headWidth(head), paint }
}

function knownBlock(report: Report, all: boolean, layout: Layout): string[] {
  const known = knownOf(report)
  const lines = grouped(known).map(({ rule, reason }) => `${rule}: ${reason}`)
  return listBlock(knownHeading(known.length), lines, all, layout)
}

function exceptionsBlock(report: Report, all: boolean, layout: Layout): string[] {
  const accepted = acceptedOf(report)
  const notices = report.waivers.filter(({ state }) => state !== 'used').map(exceptionSentence)
  const lines = [...notices, ...accepted.map(({ text }) => text)]
  return listBlock(`Exceptions: ${count(accepted.length, 'finding')} accepted`, lines, all, layout)
}

/** A heading and sentences with a dash each, few of a long list unless all are asked for; nothing when there are none. */
function listBlock(heading: string, lines: readonly string[], all: boolean, layout: Layout): string[] {
  if (lines.length === 0) return []
  const { first, others } = shortened(lines, all)
  return [
    layout.colors.bold(heading),
    '',
    ...[...first, ...(others.length > 0 ? [`${others.length} more`] : [])].flatMap((text) =>
      sideBySide(2, GAP, [
        { text: '-', width: 1 },
        { text: forTerminal(text), width: layout.width - 5 },
      ]),
    ),
  ]
}
