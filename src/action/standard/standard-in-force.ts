import { lstat } from 'node:fs/promises'
import { relative, resolve } from 'node:path'
import { UsageError } from '../../checking/usage-error.ts'
import type { Comparison } from '../git/comparison.ts'
import { isSameAt, type Tree } from '../git/tree.ts'
import { type BaseStandard, fromTop, type StandardFiles, writeBaseStandard } from './base-spec.ts'
import { standardProblems } from './standard-problems.ts'

/** What a change is judged by, and what the summary says of it. */
export interface InForce {
  /** Folder that the paths refer to. */
  readonly cwd: string
  readonly files: StandardFiles
  readonly notes: readonly string[]
}

export interface Change {
  /** Of the commit whose spec is in force. */
  readonly standard: Tree
  readonly comparison: Comparison
  /** Whether it touches portraits. */
  readonly touchesPortraits: boolean
  readonly workspace: string
  readonly temp: string
}

/**
 * The spec, the roster and the waivers as the base commit has them: a change can't loosen its own gate. What the base
 * does not have yet does not count yet, but for the spec itself, without which nothing could be judged. Where those of
 * the base are broken, a change that touches no portrait is judged by its own, so that one can be merged that repairs
 * them.
 * @throws UsageError when git can't prove what the base has, or it is broken and the change touches portraits too
 */
export async function baseInForce(change: Change, files: StandardFiles): Promise<InForce> {
  const { standard, workspace, temp } = change
  const own = (note: string): InForce => ({ cwd: workspace, files, notes: [note] })
  const judgedBy = await writeBaseStandard(standard, change.comparison.git.folder, { workspace, temp, files })
  if (judgedBy === null)
    return own(
      `The base commit has no ${files.spec} yet: the spec was taken from the change itself. Read it before you merge.`,
    )
  const inForce = await asInBase(judgedBy, change, files)
  const [problem] = await standardProblems(inForce.files, inForce.cwd)
  if (!problem) return inForce
  const what = `${problem.file} of the base commit ${standard.commit.slice(0, 12)} is broken (line ${problem.line}: ${problem.message})`
  if (change.touchesPortraits)
    throw new UsageError(
      `${what} Repair it in a change that touches no portrait, which is judged by its own version; this one touches portraits too.`,
    )
  return own(
    `${what} The change touches no portrait, so it was judged by its own version. Read it before you merge.`,
  )
}

async function asInBase(judgedBy: BaseStandard, change: Change, files: StandardFiles): Promise<InForce> {
  const { workspace, standard } = change
  const { base, head, git } = change.comparison
  const notes: string[] = []
  const changed = judgedBy.found.filter((path) => !isSameAt(path, base, head))
  if (changed.length > 0)
    notes.push(
      `The change touches ${changed.join(', ')}. It was judged by the version of the base commit ${standard.commit.slice(0, 12)}, so that it can't loosen its own gate; the new version takes effect once it is merged.`,
    )
  const inBase = async (path: string | null, what: string) => {
    if (path === null) return null
    const full = resolve(workspace, path)
    const place = fromTop(git.folder, full)
    if (place !== null && judgedBy.found.includes(place)) return relative(workspace, full)
    const here = await lstat(full).catch(() => null)
    if (here === null)
      throw new UsageError(
        `${path}, which the workflow names as the ${what}, is in neither the base commit nor the change. Correct the name in the workflow, or add the file.`,
      )
    // A folder is compared with as it is.
    if (here.isDirectory()) {
      if (place !== null && !isSameAt(place, base, head))
        notes.push(`The change touches ${path}, the ${what}, which was used as checked out.`)
      return full
    }
    notes.push(`The base commit has no ${path} yet: the ${what} takes effect once it is merged.`)
    return null
  }
  const spec = relative(workspace, resolve(workspace, files.spec))
  const roster = await inBase(files.roster, 'roster')
  const waivers = await inBase(files.waivers, 'waivers file')
  const gallery = await inBase(files.gallery, 'gallery')
  return { cwd: judgedBy.folder, files: { spec, roster, waivers, gallery }, notes }
}
