import { readdir, stat } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { UsageError } from '../checking/usage-error.ts'
import { byCodePoint } from '../text/code-points.ts'
import type { Checkout } from './git/checkout.ts'
import { refuseOutside } from './job/outside.ts'
import { refuseTracked } from './own-folders.ts'

/**
 * The JSON reports on the parts of a delivery: files as they are named, and all of a folder and of the folders in it,
 * as artifacts are downloaded.
 * @returns absolute paths
 * @throws UsageError when one is not there or part of the commit, or a folder has none
 */
export async function partReports(
  workspace: string,
  given: readonly string[],
  checkout: Checkout | null,
): Promise<string[]> {
  await refuseOutside(workspace, given)
  const found: string[] = []
  for (const path of given) {
    const full = resolve(workspace, path)
    refuseTracked(checkout, full, `${path} to merge`)
    const stats = await stat(full).catch(() => null)
    if (stats === null)
      throw new UsageError(
        `There is nothing at ${path} to merge; download the reports on all parts before this step.`,
      )
    const reports = stats.isDirectory() ? await jsonBelow(full) : [full]
    if (reports.length === 0)
      throw new UsageError(`The folder ${path} has no JSON report; put the report-json of each part there.`)
    found.push(...reports)
  }
  return found
}

async function jsonBelow(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true })
  return entries
    .filter((entry) => entry.isFile() && entry.name.endsWith('.json'))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort(byCodePoint)
}
