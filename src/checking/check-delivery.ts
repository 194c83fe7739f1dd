import { readNames } from '../delivery/identify.ts'
import { isInShard, listingHash, type Shard } from '../delivery/shard.ts'
import type { Found } from '../delivery/walk.ts'
import { assembleReport } from '../judge/assemble.ts'
import { narrowed } from '../judge/narrow.ts'
import { formatsFor, requiredGroups } from '../judge/needs.ts'
import type { Origin, Part, Sources } from '../judge/part.ts'
import { exitCode, type Report } from '../judge/report.ts'
import { knownBy, type Standard } from '../judge/standard.ts'
import { TOOL } from '../judge/tool.ts'
import type { NameReading } from '../naming/name-reading.ts'
import { type Means, measureAll } from '../pool/measure-all.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { RULES } from '../rules/index.ts'
import { count } from '../text/quantity.ts'
import { EXIT, type Host } from './host.ts'
import { type MeasuringOptions, meansOf } from './means.ts'
import { measureOnly } from './measure-only.ts'
import { progressLine } from './progress.ts'

/** What is to be judged, by what, and how. */
export interface Check {
  readonly found: Found
  readonly standard: Standard
  readonly at: Date
  /** The part to be judged, and what its report carries; null for the whole. */
  readonly part: CheckedPart | null
  /** Absolute paths of the files to judge one by one; null for all. */
  readonly only: ReadonlySet<string> | null
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
  const { found, standard, at, part, only, strict } = check
  const nameOf = namesOf(found, standard)
  const files = found.files
    .filter(({ file }) => part === null || isInShard(file, part.shard))
    .map((one) => ({ ...one, formats: formatsFor(nameOf(one.file), standard.spec, RULES) }))
  const measured = only
    ? await measureOnly(files, only, standard, means)
    : await measureAll(files, requiredGroups(standard.spec, ALL_RULES, knownBy(standard)), means)
  const read = measured.map((one) => ({ name: nameOf(one.file), measured: one }))
  const names = read.map(({ name }) => name)
  const report = assembleReport(
    {
      tool: TOOL,
      strict,
      today: at.toISOString().slice(0, 10),
      left: found.left,
      files: read,
      ...(part && { part: partOf(found, part, names) }),
    },
    standard,
  )
  if (!only) return report
  return narrowed(report, new Set(files.filter(({ path }) => only.has(path)).map(({ file }) => file)))
}

/** Names are read all together, since two can collide. */
function namesOf(found: Found, { spec }: Standard): (file: string) => NameReading {
  const read = readNames(found.files, spec.naming, Object.keys(spec.deliverables))
  const names = new Map(read.map((name) => [name.path, name]))
  return (file) => {
    const name = names.get(file)
    if (!name) throw new Error(`No name was read for ${file}.`)
    return name
  }
}

function partOf({ files }: Found, { shard, origin, sources }: CheckedPart, names: NameReading[]): Part {
  const listing = listingHash(files.map(({ file }) => file))
  return { ...shard, total: files.length, listing, origin, sources, names }
}

/** The exit code of a check: a part of a small delivery may well have no file, since the whole is judged by `merge`. */
export function checkExit(report: Report): number {
  return report.part && report.totals.files === 0 ? EXIT.fine : exitCode(report)
}
