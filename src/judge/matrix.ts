import { type Static, Type } from '@sinclair/typebox'
import { endingOf, hasEnded, type RosterEntry } from '../people/roster-entry.ts'
import type { DeliveredFile, Delivery } from '../rules/contract/delivery-rule.ts'
import type { Verdict } from './verdict.ts'

const closed = { additionalProperties: false }

const CELL_STATES = ['pass', 'fail', 'unsure', 'missing', 'double', 'absent', 'perhaps'] as const
/**
 * How one person's portrait for one deliverable stands: the verdict on its file; `missing`; `double`: there are
 * several; `absent`: none is expected; `perhaps`: there is one under another name, which may be theirs.
 */
export type CellState = (typeof CELL_STATES)[number]

const Cell = Type.Object(
  {
    state: Type.Unsafe<CellState>(Type.Union(CELL_STATES.map((state) => Type.Literal(state)))),
    files: Type.Array(Type.String()),
  },
  closed,
)

/** Who has which deliverable: a row a person, a cell a deliverable. */
export const Matrix = Type.Object(
  {
    deliverables: Type.Array(Type.String(), {
      description: 'Each has one cell per row; empty when each person gets one portrait.',
    }),
    rows: Type.Array(
      Type.Object(
        {
          person: Type.String({ description: 'Label.' }),
          listed: Type.Boolean({ description: 'On the roster; true for all when there is none.' }),
          absent: Type.Union([Type.String(), Type.Null()], {
            description:
              'Why no portrait is expected: what the roster says, or since when the person is gone.',
          }),
          perhaps: Type.Union([Type.String(), Type.Null()], {
            description:
              'Label of somebody not on the roster who may be this person; their files stand in the cells.',
          }),
          cells: Type.Array(Cell),
        },
        closed,
      ),
    ),
    unplaced: Type.Array(Type.String(), {
      description: 'Files whose names do not give the person or the deliverable.',
    }),
  },
  closed,
)
export type Matrix = Static<typeof Matrix>
type Cell = Static<typeof Cell>

/** Whether the person is to have portraits: on the roster and not absent. */
export function isExpected({ listed, absent }: Matrix['rows'][number]): boolean {
  return listed && absent === null
}

/**
 * The matrix of a delivery; null when its names tell no person.
 * @param verdicts on each file, by its path
 */
export function matrixOf(delivery: Delivery, verdicts: ReadonlyMap<string, Verdict>): Matrix | null {
  const { people, files, deliverables, roster, guesses, today } = delivery
  if (people.length === 0) return null
  const columns = deliverables.length > 0 ? deliverables : [null]
  const byPerson = new Map<string, DeliveredFile[]>(people.map(({ label }) => [label, []]))
  for (const file of files) if (file.person !== null) byPerson.get(file.person)?.push(file)
  const strangers = new Map([...guesses].map(([stranger, label]) => [label, stranger]))
  return {
    deliverables: [...deliverables],
    rows: people
      .filter(({ label }) => !guesses.has(label))
      .map(({ label, entry }) => {
        const perhaps = strangers.get(label) ?? null
        const absent = entry && whyAbsent(entry, today)
        return {
          person: label,
          listed: roster === null || entry !== null,
          absent,
          perhaps,
          cells: columns.map((deliverable) => {
            const own = (byPerson.get(perhaps ?? label) ?? []).filter(({ name }) =>
              isFor(name.deliverable, deliverable),
            )
            return perhaps === null ? cellOf(own, absent, verdicts) : perhapsCell(own)
          }),
        }
      }),
    unplaced: files
      .filter(({ person, name }) => person === null || !columns.some((one) => isFor(name.deliverable, one)))
      .map(({ name }) => name.path),
  }
}

function isFor(deliverable: string | null, column: string | null): boolean {
  return column === null || deliverable === column
}

function whyAbsent(entry: RosterEntry, today: string): string | null {
  const ending = endingOf(entry)
  if (ending === null || !hasEnded(entry, today)) return entry.absent
  return ending.cause === 'left' ? `left on ${ending.day}` : `agreed to be shown until ${ending.day}`
}

function perhapsCell(files: readonly DeliveredFile[]): Cell {
  return { state: files.length > 0 ? 'perhaps' : 'missing', files: files.map(({ name }) => name.path) }
}

function cellOf(
  files: readonly DeliveredFile[],
  absent: string | null,
  verdicts: ReadonlyMap<string, Verdict>,
): Cell {
  const paths = files.map(({ name }) => name.path)
  const [first] = paths
  if (first === undefined) return { state: absent === null ? 'missing' : 'absent', files: [] }
  return { state: paths.length > 1 ? 'double' : (verdicts.get(first) ?? 'unsure'), files: paths }
}
