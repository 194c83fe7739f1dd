import { type Static, Type } from '@sinclair/typebox'
import type { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import type { DeliveredFile, Delivery } from '../rules/contract/delivery-rule.ts'
import type { Outcome } from '../rules/contract/outcome.ts'

const closed = { additionalProperties: false }

const CELL_STATES = ['pass', 'fail', 'unsure', 'missing', 'double', 'absent'] as const
/**
 * How one person's portrait for one deliverable stands: the verdict on its file, with what the rules over the whole
 * delivery say of it; `missing`; `double`: there are several; `absent`: none is expected.
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
      description: 'One cell of each row stands for each; none when each person gets one portrait.',
    }),
    rows: Type.Array(
      Type.Object(
        {
          person: Type.String({ description: 'Label.' }),
          listed: Type.Boolean({ description: 'On the roster; true for all when there is none.' }),
          absent: Type.Union([Type.String(), Type.Null()], {
            description: 'Why the person was not photographed.',
          }),
          cells: Type.Array(Cell),
        },
        closed,
      ),
    ),
    unplaced: Type.Array(Type.String(), {
      description: 'Files whose names do not tell the person or the deliverable.',
    }),
  },
  closed,
)
export type Matrix = Static<typeof Matrix>
type Cell = Static<typeof Cell>

export interface Judged {
  /** Verdict on each file by its path. */
  readonly verdicts: ReadonlyMap<string, 'pass' | 'fail' | 'unsure'>
  readonly outcomes: readonly DeliveryOutcome[]
}

/** The matrix of a delivery; null when its names tell no person. */
export function matrixOf(delivery: Delivery, judged: Judged): Matrix | null {
  const { people, files, deliverables, roster } = delivery
  if (people.length === 0) return null
  const columns = deliverables.length > 0 ? deliverables : [null]
  const byPerson = new Map<string, DeliveredFile[]>(people.map(({ label }) => [label, []]))
  for (const file of files) if (file.person !== null) byPerson.get(file.person)?.push(file)
  const states = fileStates(judged)
  return {
    deliverables: [...deliverables],
    rows: people.map(({ label, entry }) => ({
      person: label,
      listed: roster === null || entry !== null,
      absent: entry?.absent ?? null,
      cells: columns.map((deliverable) => {
        const own = byPerson.get(label)?.filter(({ name }) => isFor(name.deliverable, deliverable)) ?? []
        return cellOf(own, entry?.absent ?? null, states)
      }),
    })),
    unplaced: files
      .filter(({ person, name }) => person === null || !columns.some((one) => isFor(name.deliverable, one)))
      .map(({ name }) => name.path),
  }
}

function isFor(deliverable: string | null, column: string | null): boolean {
  return column === null || deliverable === column
}

function cellOf(
  files: readonly DeliveredFile[],
  absent: string | null,
  states: (path: string) => Cell['state'],
): Cell {
  const paths = files.map(({ name }) => name.path)
  const [first] = paths
  if (first === undefined) return { state: absent === null ? 'missing' : 'absent', files: [] }
  return { state: paths.length > 1 ? 'double' : states(first), files: paths }
}

function fileStates({ verdicts, outcomes }: Judged): (path: string) => 'pass' | 'fail' | 'unsure' {
  const binding = outcomes.filter(({ advisory, waiver }: Outcome) => !advisory && waiver === undefined)
  const about = (verdict: 'fail' | 'unsure') =>
    new Set(binding.filter((one) => one.verdict === verdict).flatMap(({ files }) => files))
  const failing = about('fail')
  const unsure = about('unsure')
  return (path) => {
    const own = verdicts.get(path) ?? 'unsure'
    if (own === 'fail' || failing.has(path)) return 'fail'
    return own === 'unsure' || unsure.has(path) ? 'unsure' : 'pass'
  }
}
