import { findingsByFile, type Report } from '../judge/report.ts'
import { isMiss } from '../judge/verdict.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
import { quoted } from '../text/quoted.ts'
import { type Cell, csvText, type Row } from './csv-text.ts'

type Column = (typeof COLUMNS)[number]
const COLUMNS = [
  'person',
  'deliverable',
  'file',
  'file verdict',
  'rule',
  'verdict',
  'weight',
  'measured',
  'asked',
  'reason',
  'fix',
] as const

/**
 * A row a finding for a spreadsheet: of each file what it misses, alone or in the delivery, or one row when it misses
 * nothing; of the delivery what else it misses, once for each person it is about; and a row for everybody else without a
 * file.
 */
export function csv(report: Report): string {
  return csvText([...fileRows(report), ...deliveryRows(report), ...peopleWithoutFiles(report)], COLUMNS)
}

function fileRows(report: Report): Row[] {
  const findings = findingsByFile(report)
  return report.files.flatMap((file) => {
    const found = (findings.get(file.file) ?? []).filter(isFinding)
    const about = aboutFile(file)
    return found.length === 0 ? [row(about)] : found.map((outcome) => row({ ...about, ...cellsOf(outcome) }))
  })
}

function deliveryRows({ files, delivery }: Report): Row[] {
  const known = new Set(files.map(({ file }) => file))
  const others = delivery.outcomes.filter((outcome) => !outcome.files.some((file) => known.has(file)))
  return others.filter(isFinding).flatMap((outcome) => {
    const people = outcome.people.map((person) => ({ person }))
    const subjects = people.length > 0 ? people : [{}]
    return subjects.map((subject) => row({ ...subject, ...cellsOf(outcome) }))
  })
}

function peopleWithoutFiles({ delivery }: Report): Row[] {
  const found = delivery.outcomes.filter(isFinding).filter(({ files }) => files.length === 0)
  const named = new Set(found.flatMap(({ people }) => people))
  const people = delivery.matrix?.rows.filter(
    ({ person, perhaps, cells }) =>
      !named.has(person) && (perhaps !== null || cells.every(({ files }) => files.length === 0)),
  )
  return (people ?? []).map(({ person, perhaps, absent }) => {
    const reason = perhaps === null ? absent : `Perhaps delivered as ${quoted(perhaps)}.`
    return row({ person, 'file verdict': absent === null ? 'missing' : 'absent', reason })
  })
}

function aboutFile({ file, person, deliverable, verdict }: Report['files'][number]) {
  return { person, deliverable, file, 'file verdict': verdict }
}

/** What someone may have to act on, has accepted, or knew before. */
function isFinding(outcome: Outcome): boolean {
  return isMiss(outcome) || outcome.waiver !== undefined || outcome.known !== undefined
}

function cellsOf({ rule, verdict, advisory, waiver, known, measured, expected, reason, fix }: Outcome) {
  const weight = waiver ? 'exception' : known ? 'known' : advisory ? 'advisory' : 'binding'
  return { rule, verdict, weight, measured, asked: expected, reason, fix: fix ?? null }
}

function row(cells: Partial<Record<Column, Cell>>): Row {
  return new Map(Object.entries(cells))
}
