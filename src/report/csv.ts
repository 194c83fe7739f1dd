import { isMiss, type Report } from '../judge/report.ts'
import type { Outcome } from '../rules/contract/outcome.ts'
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
 * A row a finding for a spreadsheet: of each file what it misses, or one row when it misses nothing; of the delivery
 * what it misses, once for each file or person it is about; and a row for everybody else without a file.
 */
export function csv(report: Report): string {
  return csvText([...fileRows(report), ...deliveryRows(report), ...peopleWithoutFiles(report)], COLUMNS)
}

function fileRows({ files }: Report): Row[] {
  return files.flatMap(({ outcomes, ...file }) => {
    const found = outcomes.filter(isFinding)
    const about = aboutFile(file)
    return found.length === 0 ? [row(about)] : found.map((outcome) => row({ ...about, ...cellsOf(outcome) }))
  })
}

function deliveryRows({ files, delivery }: Report): Row[] {
  const byPath = new Map(files.map((file) => [file.file, file]))
  return delivery.outcomes.filter(isFinding).flatMap((outcome) => {
    const cells = cellsOf(outcome)
    const about = outcome.files.flatMap((path) => byPath.get(path) ?? []).map(aboutFile)
    const people = outcome.people.map((person) => ({ person }))
    const subjects = about.length > 0 ? about : people.length > 0 ? people : [{}]
    return subjects.map((subject) => row({ ...subject, ...cells }))
  })
}

function peopleWithoutFiles({ delivery }: Report): Row[] {
  const found = delivery.outcomes.filter(isFinding).filter(({ files }) => files.length === 0)
  const named = new Set(found.flatMap(({ people }) => people))
  const people = delivery.matrix?.rows.filter(
    ({ person, cells }) => !named.has(person) && cells.every(({ files }) => files.length === 0),
  )
  return (people ?? []).map(({ person, absent }) =>
    row({ person, 'file verdict': absent === null ? 'missing' : 'absent', reason: absent }),
  )
}

function aboutFile({ file, person, deliverable, verdict }: Omit<Report['files'][number], 'outcomes'>) {
  return { person, deliverable, file, 'file verdict': verdict }
}

/** What someone may have to act on, or has accepted. */
function isFinding(outcome: Outcome): boolean {
  return isMiss(outcome) || outcome.waiver !== undefined
}

function cellsOf({ rule, verdict, advisory, waiver, measured, expected, reason, fix }: Outcome) {
  const weight = waiver ? 'exception' : advisory ? 'advisory' : 'binding'
  return { rule, verdict, weight, measured, asked: expected, reason, fix: fix ?? null }
}

function row(cells: Partial<Record<Column, Cell>>): Row {
  return new Map(Object.entries(cells))
}
