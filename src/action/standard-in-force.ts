import { lstat } from 'node:fs/promises'
import { relative, resolve, sep } from 'node:path'
import type { Base } from './base-commit.ts'
import { type StandardFiles, writeBaseStandard } from './base-spec.ts'
import type { Changes } from './changed-files.ts'
import type { Git } from './git.ts'

/** What a change is judged by, and what the summary says of it. */
export interface InForce {
  /** Folder that the paths refer to. */
  readonly cwd: string
  readonly files: StandardFiles
  readonly notes: readonly string[]
}

export interface Change extends Base, Changes {
  readonly workspace: string
  readonly temp: string
}

/**
 * The spec, the roster and the waivers as the base commit has them: a change can't loosen its own gate. What the base
 * does not have yet does not count yet, but for the spec itself, without which nothing could be judged.
 */
export async function baseInForce(git: Git, change: Change, files: StandardFiles): Promise<InForce> {
  const { workspace, temp, commit } = change
  const judgedBy = await writeBaseStandard(git, commit, { workspace, temp, files })
  if (judgedBy === null) {
    const note = `The base commit has no ${files.spec} yet: the spec was taken from the change itself. Read it before you merge.`
    return { cwd: workspace, files, notes: [note] }
  }
  const notes: string[] = []
  const touched = [...change.present, ...change.removed]
  const changed = judgedBy.found.filter((path) => touched.includes(path))
  if (changed.length > 0)
    notes.push(
      `The change touches ${changed.join(', ')}. It was judged by the version of the base commit ${commit.slice(0, 12)}, so that it can't loosen its own gate; the new version holds once it is merged.`,
    )
  const inBase = async (path: string | null, what: string) => {
    if (path === null) return null
    const full = resolve(workspace, path)
    const fromTop = relative(git.folder, full).split(sep).join('/')
    if (judgedBy.found.includes(fromTop)) return relative(workspace, full)
    const here = await lstat(full).catch(() => null)
    // The check says that it is not there; a folder is compared with as it is.
    if (here === null || here.isDirectory()) {
      if (touched.some((one) => one.startsWith(`${fromTop}/`)))
        notes.push(`The change touches ${path}, the ${what}, which counted as it is checked out.`)
      return full
    }
    notes.push(`The base commit has no ${path} yet: the ${what} counts once it is merged.`)
    return null
  }
  const spec = relative(workspace, resolve(workspace, files.spec))
  const roster = await inBase(files.roster, 'roster')
  const waivers = await inBase(files.waivers, 'waivers file')
  const gallery = await inBase(files.gallery, 'gallery')
  return { cwd: judgedBy.folder, files: { spec, roster, waivers, gallery }, notes }
}
