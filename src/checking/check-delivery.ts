import { withKnown } from '../changes/known.ts'
import { isInShard, listingHash, type Shard } from '../delivery/shard.ts'
import type { Found, FoundFile } from '../delivery/walk.ts'
import { assembleReport } from '../judge/assemble.ts'
import { EarlyOutcomes } from '../judge/early.ts'
import { narrowed } from '../judge/narrow.ts'
import { requiredGroups } from '../judge/needs.ts'
import type { Origin, Part, Sources } from '../judge/part.ts'
import { exitCode, type Report } from '../judge/report.ts'
import { knownBy, type Standard } from '../judge/standard.ts'
import { TOOL } from '../judge/tool.ts'
import { isMiss } from '../judge/verdict.ts'
import type { MeasurementGroup } from '../measure/schema/measurements.ts'
import type { NameReading } from '../naming/name-reading.ts'
import { compileAsUsual, compileLate } from '../pool/compiling.ts'
import { startReader } from '../pool/look-up.ts'
import { type Means, measureAll } from '../pool/measure-all.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { count } from '../text/quantity.ts'
import { hashedToCompare } from './compared-content.ts'
import { EXIT, type Host } from './host.ts'
import { type MeasuringOptions, meansOf } from './means.ts'
import { measureOnly } from './measure-only.ts'
import { outcomesBefore } from './outcomes-before.ts'
import { progressLine } from './progress.ts'
import { namesOf, sourcesOf } from './sources.ts'

/** What is to be judged, by what, and how. */
export interface Check {
  readonly found: Found
  readonly standard: Standard
  readonly at: Date
  /** The part to be judged, and what its report carries; null for the whole. */
  readonly part: CheckedPart | null
  /** Absolute paths of the files to judge one by one; null for all. */
  readonly only: ReadonlySet<string> | null
  /**
   * Gives the files of the delivery as it was before a change, whose other files are in `only`: what was wrong then does
   * not count against the change. Null when nobody knows them, or there is no change.
   */
  readonly before?: (() => Promise<readonly FoundFile[] | null>) | null
  /** Whether these are only some of the files of a delivery, to be judged without the others. */
  readonly partial?: boolean
  /**
   * Whether the report is to tell the SHA-256 of each file, even when no rule asks for it, and in words what a rule found that passes; true
   * unless told. That of a part always does.
   */
  readonly detailed?: boolean
  readonly strict: boolean
}

interface CheckedPart {
  readonly shard: Shard
  /** What binds the report to a commit and a run; null outside of a workflow. */
  readonly origin: Origin | null
  readonly sources: Sources
}

/** Measures and judges every portrait of a delivery, or of a part of it, and shows how it goes on. */
export async function checkShowing(check: Check, measuring: MeasuringOptions, host: Host): Promise<Report> {
  const progress = progressLine(host)
  const report = await checkDelivery(check, await meansOf(measuring, host, progress.show))
  progress.clear()
  if (check.only)
    host.stderr.write(
      `Judged one by one: ${report.totals.files} of ${count(check.found.files.length, 'portrait')}.\n`,
    )
  return report
}

/** Measures and judges every portrait of a delivery, or of a part of it. */
export async function checkDelivery(check: Check, means: Means): Promise<Report> {
  compileLate()
  // It starts while names are read.
  const reader = check.only ? null : startReader(means.cache, means.workers, check.found.files.length)
  try {
    return await checked(check, check.only ? means : { ...means, reader })
  } finally {
    reader?.close()
    compileAsUsual()
  }
}

async function checked(check: Check, means: Means): Promise<Report> {
  const { found, standard, at, part, only, partial = false, strict } = check
  const detailed = part !== null || (check.detailed ?? true)
  const nameOf = namesOf(found.files, standard)
  const sources = sourcesOf(
    found.files.filter(({ file }) => part === null || isInShard(file, part.shard)),
    nameOf,
    standard,
  )
  // With a cache all are hashed, or known by their hash.
  const files = detailed || means.cache ? sources : hashedToCompare(sources)
  const told: readonly MeasurementGroup[] = detailed ? ['checksum'] : []
  const early = only
    ? null
    : new EarlyOutcomes(
        files.map(({ file }) => nameOf(file)),
        standard,
        part === null,
        detailed,
      )
  const measured = only
    ? await measureOnly(files, { only, told }, standard, means)
    : await measureAll(
        files,
        [...told, ...requiredGroups(standard.spec, ALL_RULES, knownBy(standard))],
        means,
        (one, isKept) => (isKept ? early?.judge(one) : early?.take(one)),
      ).finally(() => early?.finish())
  const run = {
    tool: TOOL,
    strict,
    today: at.toISOString().slice(0, 10),
    left: found.left,
    partial,
    detailed,
    files: measured.map((one) => ({ name: nameOf(one.file), measured: one })),
    ...(early && { early }),
  }
  const names = run.files.map(({ name }) => name)
  const report = assembleReport({ ...run, ...(part && { part: partOf(found, part, names) }) }, standard)
  if (!only) return report
  const judged = new Set(files.filter(({ path }) => only.has(path)).map(({ file }) => file))
  const before = check.before && isOpen(report) ? await check.before() : null
  const outcomes = before && (await outcomesBefore(before, { run, judged, standard }, means))
  if (!outcomes) return narrowed(report, judged)
  const { delivery } = report
  const marked = withKnown(delivery.outcomes, outcomes, judged)
  return narrowed({ ...report, delivery: { ...delivery, outcomes: marked } }, judged)
}

/** Whether there is anything that could have been there before. */
function isOpen({ delivery }: Report): boolean {
  return delivery.outcomes.some(isMiss)
}

function partOf({ files }: Found, { shard, origin, sources }: CheckedPart, names: NameReading[]): Part {
  const listing = listingHash(files.map(({ file }) => file))
  return { ...shard, total: files.length, listing, origin, sources, names }
}

/** The exit code of a check: a part of a small delivery may well have no file, since the whole is judged by `merge`. */
export function checkExit(report: Report): number {
  return report.part && report.totals.files === 0 ? EXIT.fine : exitCode(report)
}
