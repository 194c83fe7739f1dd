import { mkdir, mkdtemp, writeFile } from 'node:fs/promises'
import { dirname, isAbsolute, join, posix, relative, resolve, sep } from 'node:path'
import { loadSpec } from '../brand-spec/load.ts'
import { isInside } from '../files/folders.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import type { Git } from './git.ts'

/** Files to judge by, as the inputs name them, from the workspace on; null where the spec names them or nobody does. */
export interface StandardFiles {
  readonly spec: string
  readonly roster: string | null
  readonly waivers: string | null
  readonly gallery: string | null
}

/** The files to judge by as they were in the base commit. */
export interface BaseStandard {
  /** Folder that stands in for the workspace: the files lie in it as they lay in the commit. */
  readonly folder: string
  /** Paths from the top of the repository of what was there. */
  readonly found: readonly string[]
}

/** Paths from the top of a repository of the spec and what goes with it, by the spec's text where inputs are silent. */
export function standardPaths(git: Git, workspace: string, files: StandardFiles, specText: string): string[] {
  const spec = fromTop(git, resolve(workspace, files.spec))
  const named = spec === null ? {} : namedBySpec(specText, spec)
  const given = (input: string | null, setting: string | undefined) =>
    input === null ? (setting ?? null) : fromTop(git, resolve(workspace, input))
  const all = [
    spec,
    given(files.roster, named.roster),
    given(files.waivers, named.waivers),
    given(files.gallery, undefined),
  ]
  return all.filter((path) => path !== null)
}

/**
 * Writes the spec of a commit, and what goes with it, into a new folder.
 * @param temp folder in which the new one is made
 * @returns null when the commit has no such spec
 */
export async function writeBaseStandard(
  git: Git,
  commit: string,
  { workspace, temp, files }: { workspace: string; temp: string; files: StandardFiles },
): Promise<BaseStandard | null> {
  const spec = fromTop(git, resolve(workspace, files.spec))
  const specText = spec === null ? null : await contentOf(git, commit, spec)
  if (specText === null) return null
  const top = await mkdtemp(join(temp, 'portrait-gate-'))
  const folder = join(top, relative(git.folder, workspace))
  await mkdir(folder, { recursive: true })
  const found: string[] = []
  for (const path of standardPaths(git, workspace, files, specText)) {
    const text = await contentOf(git, commit, path)
    if (text === null) continue
    const target = join(top, path)
    await mkdir(dirname(target), { recursive: true })
    await writeFile(target, text)
    found.push(path)
  }
  return { folder, found }
}

/** With /; null for a path outside the repository. */
function fromTop(git: Git, path: string): string | null {
  if (!isInside(path, git.folder)) return null
  return relative(git.folder, path).split(sep).join('/')
}

/** A regular file's text; null for anything else, links included, whose target the commit does not bind. */
async function contentOf(git: Git, commit: string, path: string): Promise<string | null> {
  const entry = await git.ask('ls-tree', '-z', commit, '--', path)
  if (!/^100\d{3} blob /.test(entry.stdout)) return null
  const { ok, stdout } = await git.ask('cat-file', 'blob', `${commit}:${path}`)
  return ok ? stdout : null
}

/** The roster and the waivers that a spec names, from the top of the repository; the check refuses what leads out. */
function namedBySpec(text: string, spec: string): { roster?: string; waivers?: string } {
  const loaded = loadSpec(text, spec, ALL_RULES)
  if ('problems' in loaded) return {}
  const { settings, waivers } = loaded.spec
  const beside = (setting: unknown) => {
    if (typeof setting !== 'string' || isAbsolute(setting)) return undefined
    const path = posix.join(posix.dirname(spec), setting)
    return path.startsWith('../') ? undefined : path
  }
  const roster = beside(settings.roster)
  const listed = beside(waivers ?? undefined)
  return { ...(roster !== undefined && { roster }), ...(listed !== undefined && { waivers: listed }) }
}
