import { type Static, Type } from '@sinclair/typebox'
import type { Spec } from '../brand-spec/spec.ts'
import { Measurements } from '../measure/schema/measurements.ts'
import type { NameReading } from '../naming/name-reading.ts'
import { DeliveryOutcome } from '../rules/contract/delivery-outcome.ts'
import { Outcome } from '../rules/contract/outcome.ts'
import { byCodePoint } from '../text/code-points.ts'
import { WaiverReport } from '../waivers/waiver.ts'
import { Matrix } from './matrix.ts'
import { Part } from './part.ts'
import { Since } from './since.ts'
import { Summary, summaryOf } from './summary.ts'
import { byFile, fileVerdict, isWarning, joined, Verdict, verdictOf } from './verdict.ts'

const closed = { additionalProperties: false }
const Count = Type.Integer({ minimum: 0 })

export const FileReport = Type.Object(
  {
    file: Type.String({ description: 'Path relative to the delivery root, with /.' }),
    deliverable: Type.Union([Type.String(), Type.Null()]),
    fields: Type.Record(Type.String(), Type.String(), {
      description: 'Values of the named fields of the name.',
    }),
    person: Type.Union([Type.String(), Type.Null()], {
      description: 'Label of the person the name identifies, or most likely means.',
    }),
    verdict: Type.Union(Verdict.anyOf, {
      description:
        'The worst verdict any rule gives the file, in `outcomes` or in the outcomes of `delivery` that name it. `unsure`: check by eye; it is never a pass.',
    }),
    outcomes: Type.Array(Outcome, { description: 'Results of the rules on single files.' }),
    measurements: Measurements,
  },
  closed,
)
export type FileReport = Static<typeof FileReport>

/**
 * Version of the report's form.
 * @choice counted up whenever a key is renamed or removed, or changes its meaning.
 */
const SCHEMA_VERSION = 2

/** Everything a run has to say, as plain JSON; every reporter is a pure function of it. */
export const Report = Type.Object(
  {
    schemaVersion: Type.Literal(SCHEMA_VERSION, {
      description: 'Version of this form; raised when a key is renamed or removed, or changes its meaning.',
    }),
    tool: Type.Object({ name: Type.String(), version: Type.String() }, closed),
    spec: Type.Object(
      {
        file: Type.String(),
        brand: Type.String(),
        version: Type.Number(),
        extends: Type.Optional(
          Type.Array(Type.Object({ file: Type.String(), version: Type.Number() }, closed), {
            description: 'The specs that it extends, the nearest first; absent when it stands alone.',
          }),
        ),
      },
      closed,
    ),
    verdict: Verdict,
    strict: Type.Boolean({ description: 'Whether an unsure portrait fails the run.' }),
    totals: Type.Object(
      {
        files: Count,
        pass: Count,
        fail: Count,
        unsure: Count,
        warnings: Type.Integer({
          minimum: 0,
          description: 'Advisory rules that are missed or unsure, over all files and the delivery.',
        }),
        waived: Type.Integer({
          minimum: 0,
          description: 'Outcomes that an exception covers, over all files and the delivery.',
        }),
      },
      closed,
    ),
    summary: Summary,
    left: Type.Object(
      { hidden: Count, sidecars: Count, links: Count, other: Count },
      {
        ...closed,
        description: 'What was not checked: files, and links without a picture name.',
      },
    ),
    files: Type.Array(FileReport),
    delivery: Type.Object(
      { outcomes: Type.Array(DeliveryOutcome), matrix: Type.Union([Matrix, Type.Null()]) },
      { ...closed, description: 'Results for the delivery as a whole; empty in the report on a part.' },
    ),
    waivers: Type.Array(WaiverReport, {
      description: 'Every exception of the waivers file and what became of it.',
    }),
    part: Type.Optional(Part),
    partial: Type.Optional(
      Type.Object(
        {
          notJudged: Type.Array(Type.String(), {
            description: 'What that leaves open, as "who is missing".',
          }),
        },
        { ...closed, description: 'Set when only some of the files were checked, without the others.' },
      ),
    ),
    since: Type.Optional(Since),
  },
  closed,
)
export type Report = Static<typeof Report>

export interface JudgedFile {
  readonly name: NameReading
  readonly measured: Measurements
  readonly outcomes: readonly Outcome[]
  /** Label; null when the name does not say who. */
  readonly person?: string | null
}

export interface ReportParts {
  readonly tool: Report['tool']
  readonly spec: Pick<Spec, 'file' | 'brand' | 'version' | 'extended'>
  readonly strict: boolean
  readonly left: Report['left']
  readonly files: readonly JudgedFile[]
  readonly delivery?: Report['delivery']
  readonly waivers?: Report['waivers']
  /** Set for the report on a part. */
  readonly part?: Part
  readonly partial?: NonNullable<Report['partial']>
}

/** Sums up; files in the order of their paths by code points, the same on every machine. */
export function buildReport(parts: ReportParts): Report {
  const { tool, spec, strict, left, files, waivers = [], part, partial } = parts
  const { delivery = { outcomes: [], matrix: null } } = parts
  const about = byFile(delivery.outcomes)
  const reports = files.map((file) => reportFile(file, about)).sort((a, b) => byCodePoint(a.file, b.file))
  const { file, brand, version, extended } = spec
  return {
    schemaVersion: SCHEMA_VERSION,
    tool,
    spec: { file, brand, version, ...(extended.length > 0 && { extends: [...extended] }) },
    strict,
    ...summedUp(reports, delivery),
    left,
    files: reports,
    delivery,
    waivers,
    ...(part && { part }),
    ...(partial && { partial }),
  }
}

/**
 * All that a report says of its files together. A delivery in which nothing was judged does not pass.
 * @param hasFiles whether the delivery has any; the report may be on none of them
 */
export function summedUp(
  files: FileReport[],
  delivery: Report['delivery'],
  hasFiles = files.length > 0,
): Pick<Report, 'verdict' | 'totals' | 'summary'> {
  const countOf = (verdict: Verdict) => files.filter((file) => file.verdict === verdict).length
  const countAll = (test: (outcome: Outcome) => boolean) =>
    files.reduce(
      (sum, { outcomes }) => sum + outcomes.filter(test).length,
      delivery.outcomes.filter(test).length,
    )
  const totals = {
    files: files.length,
    pass: countOf('pass'),
    fail: countOf('fail'),
    unsure: countOf('unsure'),
    warnings: countAll(isWarning),
    waived: countAll(({ waiver }) => waiver !== undefined),
  }
  const wholeIsJudged = delivery.outcomes.some(({ verdict }) => verdict !== 'skip')
  const verdicts = [
    ...files.map(({ verdict }) => verdict),
    ...(wholeIsJudged ? [verdictOf(delivery.outcomes)] : []),
    ...(hasFiles ? [] : (['unsure'] as const)),
  ]
  const verdict = (['fail', 'unsure', 'pass'] as const).find((one) => verdicts.includes(one)) ?? 'unsure'
  return { verdict, totals, summary: summaryOf(files, findingsByFile({ files, delivery }), delivery.matrix) }
}

/** All that is said of each file, by its path: by the rules on it, then by those over the delivery that name it. */
export function findingsByFile({
  files,
  delivery,
}: Pick<Report, 'files' | 'delivery'>): ReadonlyMap<string, readonly Outcome[]> {
  const about = byFile(delivery.outcomes)
  return new Map(files.map(({ file, outcomes }) => [file, joined(outcomes, about.get(file))]))
}

/** Process exit code: 0 when nothing fails, 1 when a portrait fails, or with `strict` is unsure. */
export function exitCode({ verdict, strict }: Pick<Report, 'verdict' | 'strict'>): 0 | 1 {
  return verdict === 'fail' || (strict && verdict === 'unsure') ? 1 : 0
}

function reportFile(
  { name, measured, outcomes, person = null }: JudgedFile,
  about: ReturnType<typeof byFile>,
): FileReport {
  return {
    file: name.path,
    deliverable: name.deliverable,
    fields: name.fields,
    person,
    verdict: fileVerdict(outcomes, about.get(name.path) ?? []),
    outcomes: [...outcomes],
    measurements: measured,
  }
}
