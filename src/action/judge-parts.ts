import { resolve } from 'node:path'
import type { Host } from '../checking/host.ts'
import { standardOf } from '../checking/standard.ts'
import { mergedReport } from '../commands/merge.ts'
import { type Parts, readParts } from '../commands/reading/read-parts.ts'
import { commonFolder } from '../files/folders.ts'
import { exitCode } from '../judge/report.ts'
import { findBase } from './git/base-commit.ts'
import { partReports } from './merge-parts.ts'
import { refuseForgedParts, refuseOtherRuns } from './parts-binding.ts'
import { makePlan } from './plan.ts'
import type { Told } from './telling/told.ts'
import { trouble } from './telling/trouble.ts'
import type { Judged, Work } from './work.ts'

/**
 * Puts reports on the parts of a delivery together. Where the repository is checked out, they must be about what is in it
 * and judged by what is in force.
 * @param host to which sentences are said; @param said what was said so far
 * @throws UsageError when a report does not belong to this run, this commit and this spec
 */
export async function judgeParts(work: Work, host: Host, said: readonly string[]): Promise<Judged | Told> {
  const { runner, inputs, checkout } = work
  const { workspace } = runner
  const paths = await partReports(workspace, inputs.merge, checkout)
  const parts = await readParts(paths, { ...host, cwd: workspace })
  refuseOtherRuns(parts, runner, checkout)
  const found = checkout ? await bound(work, parts, host) : null
  // Without the repository there is nothing to take the spec from.
  if (!checkout && inputs.specFromBase) await findBase(checkout, runner)
  const at = new Date()
  const standard = standardOf(parts.sources, host)
  if (!standard) return trouble(said)
  // Whichever job asks for it: what is unsure must not pass for a setting that one of them lacks.
  const strict = parts.strict || inputs.strict
  const report = mergedReport({ ...parts, strict }, standard, at)
  const folders = inputs.paths.map((path) => resolve(workspace, path))
  const root = found?.root ?? commonFolder(folders) ?? workspace
  const judgedBy = { standard, sources: parts.sources }
  return { report, at, root, portraits: [], judgedBy, notes: found?.notes ?? [], exit: exitCode(report) }
}

async function bound(work: Work, parts: Parts, host: Host) {
  const plan = await makePlan({ ...work, inputs: { ...work.inputs, onlyChanged: false } })
  await refuseForgedParts(parts, plan, { ...host, cwd: plan.cwd })
  return { root: plan.found.root, notes: plan.notes }
}
