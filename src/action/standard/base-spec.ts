import { mkdir, mkdtemp, writeFile } from 'node:fs/promises'
import { dirname, isAbsolute, join, posix, relative, resolve, sep } from 'node:path'
import { loadSpec } from '../../brand-spec/load.ts'
import { type NamedFiles, namedFiles } from '../../brand-spec/named-files.ts'
import { isInside } from '../../files/folders.ts'
import { ALL_RULES } from '../../rules/delivery-index.ts'
import type { Tree } from '../git/tree.ts'

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
export function standardPaths(
  top: string,
  workspace: string,
  files: StandardFiles,
  specText: string,
): string[] {
  const spec = fromTop(top, resolve(workspace, files.spec))
  const named = spec === null ? NO_FILES : namedBySpec(specText, spec)
  const given = (input: string | null, setting: string | undefined) =>
    input === null ? (setting ?? null) : fromTop(top, resolve(workspace, input))
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
 * @throws UsageError when the commit can't be proved to have it, or not to have it
 */
export async function writeBaseStandard(
  base: Tree,
  top: string,
  { workspace, temp, files }: { workspace: string; temp: string; files: StandardFiles },
): Promise<BaseStandard | null> {
  const spec = fromTop(top, resolve(workspace, files.spec))
  const specText = spec === null ? null : await base.content(spec)
  if (specText === null) return null
  const stand = await mkdtemp(join(temp, 'portrait-gate-'))
  const folder = join(stand, relative(top, workspace))
  await mkdir(folder, { recursive: true })
  const found: string[] = []
  const gallery = files.gallery === null ? null : fromTop(top, resolve(workspace, files.gallery))
  for (const path of standardPaths(top, workspace, files, specText.toString('utf8'))) {
    // Of a gallery that is a folder, the pictures count as they are checked out.
    if (path === gallery && base.entries.get(path)?.kind === 'folder') continue
    const content = await base.content(path)
    if (content === null) continue
    const target = join(stand, path)
    await mkdir(dirname(target), { recursive: true })
    await writeFile(target, content)
    found.push(path)
  }
  return { folder, found }
}

/** With /; null for a path outside the repository. */
export function fromTop(top: string, path: string): string | null {
  return isInside(path, top) ? relative(top, path).split(sep).join('/') : null
}

/** The roster and the waivers that a spec names, from the top of the repository; the check refuses what leads out. */
function namedBySpec(text: string, spec: string): NamedFiles {
  const loaded = loadSpec(text, spec, ALL_RULES)
  if ('problems' in loaded) return NO_FILES
  const beside = (setting: string | undefined) => {
    if (setting === undefined || isAbsolute(setting)) return undefined
    const path = posix.join(posix.dirname(spec), setting)
    return path.startsWith('../') ? undefined : path
  }
  const { roster, waivers } = namedFiles(loaded.spec)
  return { roster: beside(roster), waivers: beside(waivers) }
}

const NO_FILES: NamedFiles = { roster: undefined, waivers: undefined }
