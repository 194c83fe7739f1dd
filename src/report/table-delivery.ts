import stringWidth from 'string-width'
import type { CellState, Matrix } from '../judge/matrix.ts'
import type { Report } from '../judge/report.ts'
import { isMiss } from '../judge/verdict.ts'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import { count } from '../text/quantity.ts'
import { type Cell, sideBySide } from './columns.ts'
import { grouped } from './grouped.ts'
import { forTerminal } from './safe.ts'
import { acceptedOf, exceptionSentence, knownHeading, knownOf } from './sentences.ts'
import { sinceLines, sinceSentence } from './since.ts'
import { GAP, type Layout, outcomeRows } from './table-rows.ts'

/**
 * What a terminal shows of the delivery as a whole: its misses, who has what, and the exceptions.
 * @param told the outcomes that no file tells
 */
export function deliveryBlocks(report: Report, told: readonly DeliveryOutcome[], layout: Layout): string[][] {
  const { matrix } = report.delivery
  const shown = told.filter(isMiss)
  const widest = Math.max(0, ...shown.map(({ rule }) => stringWidth(rule)))
  return [
    ...(shown.length === 0
      ? []
      : [
          [
            layout.colors.bold(`The delivery as a whole: ${count(shown.length, 'finding')}`),
            '',
            ...shown.flatMap((outcome) => outcomeRows(outcome, widest, layout)),
          ],
        ]),
    ...(matrix === null ? [] : matrixBlocks(matrix, layout)),
    knownBlock(report, layout),
    exceptionsBlock(report, layout),
    ...(report.since ? [listBlock(sinceSentence(report.since), sinceLines(report.since), layout)] : []),
  ]
}

// So many people can be looked over at once; of more, only those are shown with problems.
const MOST_SHOWN = 60
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

function matrixBlocks({ deliverables, rows, unplaced }: Matrix, layout: Layout): string[][] {
  const isFine = ({ cells, listed }: Row) =>
    listed && cells.every(({ state }) => state === 'pass' || state === 'absent')
  const fine = rows.filter(isFine).length
  const listed = rows.filter((row) => row.listed).length
  const shown = rows.length > MOST_SHOWN ? rows.filter((row) => !isFine(row)) : rows
  const heads = deliverables.length > 0 ? deliverables : ['portrait']
  const left = rows.length - shown.length
  const notes = [
    ...(left > 0 ? [`Not shown: ${count(left, 'person', 'people')} without problems.`] : []),
    ...(unplaced.length > 0
      ? [
          `Not in this table: ${count(unplaced.length, 'file')} whose names don't give the person or the deliverable.`,
        ]
      : []),
  ]
  const heading = `Who has what: ${fine} of ${count(listed, 'person', 'people')} complete`
  return [
    [
      layout.colors.bold(heading),
      ...columnGroups(heads, shown, layout).flatMap((group) => ['', ...grid(group, heads, shown, layout)]),
      ...notes.flatMap((text) => ['', ...sideBySide(2, 0, [{ text, width: layout.width - 2 }])]),
    ],
  ]
}

type Row = Matrix['rows'][number]

/** Leaves room for one column at least. */
function nameWidth(heads: readonly string[], rows: readonly Row[], { width }: Layout): number {
  const room = width - 2 - GAP - Math.max(...heads.map(headWidth))
  return Math.min(LONGEST_NAME, room, Math.max(0, ...rows.map((row) => stringWidth(nameOf(row)))))
}

function nameOf({ person, listed, perhaps }: Row): string {
  const guess = perhaps === null ? '' : ` (${forTerminal(perhaps)}?)`
  return `${forTerminal(person)}${listed ? guess : ' (not on the roster)'}`
}

function headWidth(head: string): number {
  return Math.min(LONGEST_HEAD, Math.max(WORDS.missing.length, stringWidth(forTerminal(head))))
}

/** The columns by their index, in groups of as many as stand side by side. */
function columnGroups(heads: readonly string[], rows: readonly Row[], layout: Layout): number[][] {
  const groups: number[][] = []
  let room = 0
  for (const [index, head] of heads.entries()) {
    const needs = headWidth(head) + GAP
    const group = groups.at(-1)
    if (group && room >= needs) group.push(index)
    else {
      groups.push([index])
      room = layout.width - 2 - nameWidth(heads, rows, layout)
    }
    room -= needs
  }
  return groups
}

function grid(
  group: readonly number[],
  heads: readonly string[],
  rows: readonly Row[],
  layout: Layout,
): string[] {
  if (rows.length === 0) return []
  const names = nameWidth(heads, rows, layout)
  const cells = group.map((index) => heads[index] ?? '')
  const head = cells.map((text): Cell => ({ text: forTerminal(text), width: headWidth(text) }))
  return [
    ...sideBySide(2, GAP, [{ text: '', width: names }, ...head]),
    ...rows.flatMap((row) => {
      const name = { text: nameOf(row), width: names }
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

function knownBlock(report: Report, layout: Layout): string[] {
  const known = knownOf(report)
  const lines = grouped(known).map(({ rule, reason }) => `${rule}: ${reason}`)
  return listBlock(knownHeading(known.length), lines, layout)
}

function exceptionsBlock(report: Report, layout: Layout): string[] {
  const accepted = acceptedOf(report)
  const notices = report.waivers.filter(({ state }) => state !== 'used').map(exceptionSentence)
  const lines = [...accepted.map(({ text }) => text), ...notices]
  return listBlock(`Exceptions: ${count(accepted.length, 'finding')} accepted`, lines, layout)
}

/** A heading and sentences with a dash each; nothing when there are none. */
function listBlock(heading: string, lines: readonly string[], layout: Layout): string[] {
  if (lines.length === 0) return []
  return [
    layout.colors.bold(heading),
    '',
    ...lines.flatMap((text) =>
      sideBySide(2, GAP, [
        { text: '-', width: 1 },
        { text: forTerminal(text), width: layout.width - 5 },
      ]),
    ),
  ]
}
