import type { Matrix } from '../judge/matrix.ts'
import { count } from '../text/quantity.ts'
import { isLong } from './short-list.ts'

type Row = Matrix['rows'][number]

/** A row of who has what: a person's, or one that stands for several people who stand alike. */
export interface MatrixLine {
  readonly row: Row
  readonly people: number
}

// Fewer can be told one by one.
const LEAST_ALIKE = 5

/** The rows of a matrix; of a long one, people who stand alike come last in one row. @param all whether to keep every row */
export function matrixLines({ rows }: Matrix, all: boolean): MatrixLine[] {
  const groups = new Map<string, Row[]>()
  for (const row of rows) {
    const key = JSON.stringify([row.listed, row.perhaps, row.absent, row.cells.map(({ state }) => state)])
    const group = groups.get(key)
    if (group) group.push(row)
    else groups.set(key, [row])
  }
  const large =
    all || !isLong(rows.length) ? [] : [...groups.values()].filter((group) => group.length >= LEAST_ALIKE)
  const folded = new Set(large.flat())
  const alike = large.flatMap(([row, ...others]) => (row ? [{ row, people: 1 + others.length }] : []))
  return [
    ...rows.filter((row) => !folded.has(row)).map((row) => ({ row, people: 1 })),
    ...alike.sort((a, b) => b.people - a.people),
  ]
}

/** How many files stand in no row, in a sentence; null when all do. */
export function unplacedSentence({ unplaced }: Matrix): string | null {
  if (unplaced.length === 0) return null
  const files = count(unplaced.length, "file whose name doesn't give", "files whose names don't give")
  return `Not in this table: ${files} the person or the deliverable.`
}
