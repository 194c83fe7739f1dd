import { type Static, Type } from '@sinclair/typebox'
import type { Outcome } from '../rules/contract/outcome.ts'
import { RULES } from '../rules/index.ts'
import { isExpected, type Matrix } from './matrix.ts'
import { severityRank, worstFirst } from './severity.ts'
import { isMiss, isWarning, type Verdict } from './verdict.ts'

const closed = { additionalProperties: false }
const Labels = (description: string) => Type.Array(Type.String(), { description })
const Count = Type.Integer({ minimum: 0 })

const PeopleSummary = Type.Object(
  {
    expected: Type.Integer({
      minimum: 0,
      description:
        'People on the roster, without those who are absent; where there is none, all whom file names tell.',
    }),
    missing: Labels('Those of them without any file.'),
    incomplete: Labels('Those with files, but without one for some deliverable that others have.'),
    perhaps: Labels('Those who may have files under another name.'),
    double: Labels('Those with several files for one deliverable.'),
    unknown: Labels('Those whom file names tell and who are not on the roster.'),
    undelivered: Labels('Deliverables that nobody has.'),
  },
  closed,
)

const RuleSummary = Type.Object(
  {
    rule: Type.String(),
    advisory: Type.Boolean(),
    fail: Count,
    unsure: Count,
    of: Type.Integer({ minimum: 0, description: 'Files on which the rule was judged.' }),
    widespread: Type.Boolean({
      description:
        'Whether so many files fail that the spec may be wrong, or what was done to all of them alike: nine in ten, and five at least.',
    }),
  },
  { ...closed, description: 'On how many files a rule is missed; exceptions are not counted.' },
)
export type RuleSummary = Static<typeof RuleSummary>

/** What to look at first. */
export const Summary = Type.Object(
  {
    people: Type.Union([PeopleSummary, Type.Null()], {
      description: 'Null when file names tell no people, and in the report on a part.',
    }),
    rules: Type.Array(RuleSummary, {
      description: 'The rules that files miss, those with most files first.',
    }),
    worst: Labels('The files that fail, are unsure or have warnings, the worst first.'),
  },
  closed,
)
export type Summary = Static<typeof Summary>

interface Judged {
  readonly file: string
  readonly person: string | null
  readonly verdict: Verdict
  readonly outcomes: readonly Outcome[]
  readonly measurements: { readonly fault: unknown }
}

/** @param findings all that is said of each file, by its path */
export function summaryOf(
  files: readonly Judged[],
  findings: ReadonlyMap<string, readonly Outcome[]>,
  matrix: Matrix | null,
): Summary {
  const isOpen = ({ file, verdict }: Judged) =>
    verdict !== 'pass' || (findings.get(file) ?? []).some(isWarning)
  return {
    people: matrix === null ? null : peopleIn(matrix, new Set(files.map(({ person }) => person))),
    rules: rulesIn(findings),
    worst: worstFirst(files.filter(isOpen), findings).map(({ file }) => file),
  }
}

type Row = Matrix['rows'][number]

/** @param shown whom files are of, for whichever deliverable */
function peopleIn(
  { deliverables, rows }: Matrix,
  shown: ReadonlySet<string | null>,
): Static<typeof PeopleSummary> {
  const isDelivered = (column: number) => rows.some(({ cells }) => (cells[column]?.files.length ?? 0) > 0)
  const has = (row: Row, state: Row['cells'][number]['state']) =>
    row.cells.some((cell) => cell.state === state)
  const isWithout = ({ person, cells }: Row) =>
    !shown.has(person) && cells.every(({ files }) => files.length === 0)
  const lacksSome = ({ cells }: Row) =>
    cells.some(({ state }, column) => state === 'missing' && isDelivered(column))
  const labels = (test: (row: Row) => boolean) => rows.filter(test).map(({ person }) => person)
  return {
    expected: rows.filter(isExpected).length,
    missing: labels((row) => isExpected(row) && isWithout(row)),
    incomplete: labels((row) => isExpected(row) && row.perhaps === null && !isWithout(row) && lacksSome(row)),
    perhaps: labels(({ perhaps }) => perhaps !== null),
    double: labels((row) => has(row, 'double')),
    unknown: labels(({ listed }) => !listed),
    undelivered: deliverables.filter((_, column) => !isDelivered(column)),
  }
}

function rulesIn(findings: ReadonlyMap<string, readonly Outcome[]>): RuleSummary[] {
  const counts = new Map<string, Counted>()
  for (const own of findings.values()) countFile(own, counts)
  const missed = [...counts].filter(([, { fail, unsure }]) => fail + unsure > 0)
  return missed
    .map(([id, count]) => {
      // Rules over the delivery judge every file; and no spec damages files.
      const rule = RULES.find((one) => one.id === id)
      const widespread = rule !== undefined && rule.severity !== 'unusable' && isWidespread(count)
      const { last: _, worst: __, ...counted } = count
      return { ...counted, rule: id, of: rule ? count.of : findings.size, widespread }
    })
    .sort(
      (a, b) =>
        b.fail + b.unsure - a.fail - a.unsure ||
        b.fail - a.fail ||
        severityRank(a.rule) - severityRank(b.rule),
    )
}

interface Counted {
  advisory: boolean
  fail: number
  unsure: number
  of: number
  /** What is said of the file that was counted last, and the worst of it by this rule. */
  last: readonly Outcome[] | null
  worst: 'fail' | 'unsure' | null
}

/** Adds one file to the counts of the rules that apply to it. A rule may have several findings on it, of which the worst counts. */
function countFile(findings: readonly Outcome[], counts: Map<string, Counted>): void {
  for (const outcome of findings) {
    const { rule, verdict } = outcome
    if (verdict === 'skip') continue
    let count = counts.get(rule)
    if (!count) {
      count = { advisory: true, fail: 0, unsure: 0, of: 0, last: null, worst: null }
      counts.set(rule, count)
    }
    if (count.last !== findings) {
      count.of++
      count.last = findings
      count.worst = null
    }
    if (!isMiss(outcome)) continue
    if (!outcome.advisory) count.advisory = false
    const worst = verdict === 'fail' || count.worst === 'fail' ? 'fail' : 'unsure'
    if (count.worst !== null) count[count.worst]--
    count[worst]++
    count.worst = worst
  }
}

/** So many files must fail a rule before it asks about the spec. @choice one or two are no sign of anything. */
const LEAST_FILES = 5
/** So large a share of the judged files must fail it, 0..1. @choice of less, some portraits show that it can be met. */
const LEAST_SHARE = 0.9

function isWidespread({ fail, of }: Pick<RuleSummary, 'fail' | 'of'>): boolean {
  return fail >= LEAST_FILES && fail >= LEAST_SHARE * of
}
