import { readNames } from '../delivery/identify.ts'
import { isInShard, listingHash, type Shard } from '../delivery/shard.ts'
import type { Found } from '../delivery/walk.ts'
import { assembleReport } from '../judge/assemble.ts'
import { narrowed } from '../judge/narrow.ts'
import { formatsFor, requiredGroups } from '../judge/needs.ts'
import type { Origin, Sources } from '../judge/part.ts'
import { exitCode, type Report } from '../judge/report.ts'
import { knownBy, type Standard } from '../judge/standard.ts'
import { TOOL } from '../judge/tool.ts'
import { measureAll } from '../pool/measure-all.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { RULES } from '../rules/index.ts'
import { count } from '../text/quantity.ts'
import { EXIT, type Host } from './host.ts'
import { type MeasuringOptions, meansOf } from './measuring.ts'
import { measureOnly } from './only.ts'
import { progressLine } from './progress.ts'

/** What is to be judged, by what, and how. */
export interface Check {
  readonly found: Found
  readonly sources: Sources
  readonly standard: Standard
  readonly at: Date
  /** What binds the report on a part to a commit and a run; null outside of a workflow. */
  readonly origin: Origin | null
  readonly shard: Shard | null
  /** Absolute paths of the files to judge one by one; null for all. */
  readonly only: ReadonlySet<string> | null
  readonly strict: boolean
  readonly measuring: MeasuringOptions
}

/** Measures and judges every portrait of a delivery, or of a part of it. */
export async function checkDelivery(
  { found, sources, standard, at, origin, shard, only, strict, measuring }: Check,
  host: Host,
): Promise<Report> {
  const { spec } = standard
  const known = knownBy(standard)
  // Names are read all together, since two can collide.
  const names = new Map(
    readNames(found.files, spec.naming, known.deliverables).map((name) => [name.path, name]),
  )
  const nameOf = (file: string) => {
    const name = names.get(file)
    if (!name) throw new Error(`No name was read for ${file}.`)
    return name
  }
  const files = found.files
    .filter(({ file }) => shard === null || isInShard(file, shard))
    .map((one) => ({ ...one, formats: formatsFor(nameOf(one.file), spec, RULES) }))
  const progress = progressLine(host)
  const means = await meansOf(measuring, host, progress.show)
  const groups = requiredGroups(spec, ALL_RULES, known)
  const measured = only
    ? await measureOnly(files, only, standard, means)
    : await measureAll(files, groups, means)
  progress.clear()
  const read = measured.map((one) => ({ name: nameOf(one.file), measured: one }))
  const listing = listingHash(found.files.map(({ file }) => file))
  const about = { total: found.files.length, listing, origin, sources, names: read.map(({ name }) => name) }
  const report = assembleReport(
    {
      tool: TOOL,
      strict,
      today: at.toISOString().slice(0, 10),
      left: found.left,
      files: read,
      ...(shard && { part: { ...shard, ...about } }),
    },
    standard,
  )
  if (!only) return report
  const asked = files.filter(({ path }) => only.has(path)).map(({ file }) => file)
  host.stderr.write(`Judged one by one: ${asked.length} of ${count(files.length, 'portrait')}.\n`)
  return narrowed(report, new Set(asked))
}

/** The exit code of a check: a part of a small delivery may well have no file, since the whole is judged by `merge`. */
export function checkExit(report: Report): number {
  return report.part && report.totals.files === 0 ? EXIT.fine : exitCode(report)
}
