import { mkdir, mkdtemp, writeFile } from 'node:fs/promises'
import { dirname, isAbsolute, join, posix, relative, resolve, sep } from 'node:path'
import { loadSpec } from '../../brand-spec/load.ts'
import { type NamedFile, type NamedFiles, namedFiles } from '../../brand-spec/named-files.ts'
import { type ReadText, readExtended } from '../../checking/extended-specs.ts'
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

/**
 * Paths from the top of a repository of the spec, what it extends and what goes with it, as inputs and as the specs' texts
 * name it: what an input names may be new, and until then what the spec names counts.
 * @param read reads a text by its path from the top
 */
export async function standardPaths(
  top: string,
  workspace: string,
  files: StandardFiles,
  read: ReadText,
): Promise<string[]> {
  const spec = fromTop(top, resolve(workspace, files.spec))
  const { extended, named } = spec === null ? NO_FILES : await saidBySpec(spec, read)
  const inputs = [files.roster, files.waivers, files.gallery].filter((input) => input !== null)
  const given = inputs.map((input) => fromTop(top, resolve(workspace, input)))
  const all = [spec, ...extended, ...given, named.roster, named.waivers]
  return [...new Set(all.filter((path) => path !== null && path !== undefined))]
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
  if (spec === null || (await base.content(spec)) === null) return null
  const read: ReadText = async (path) => {
    const content = await base.content(path)
    return content === null ? { problem: 'is not there.' } : { text: content.toString('utf8') }
  }
  const stand = await mkdtemp(join(temp, 'portrait-gate-'))
  const folder = join(stand, relative(top, workspace))
  await mkdir(folder, { recursive: true })
  const found: string[] = []
  const gallery = files.gallery === null ? null : fromTop(top, resolve(workspace, files.gallery))
  for (const path of await standardPaths(top, workspace, files, read)) {
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
  return isInside(path, top) ? withSlashes(relative(top, path)) : null
}

interface SaidBySpec {
  /** Paths from the top of the repository of the specs that it extends. */
  readonly extended: readonly string[]
  /** Of the roster and the waivers that it names; the check refuses what leads out. */
  readonly named: { readonly [what in keyof NamedFiles]: string | undefined }
}

const NO_FILES: SaidBySpec = { extended: [], named: { roster: undefined, waivers: undefined } }

async function saidBySpec(spec: string, readText: ReadText): Promise<SaidBySpec> {
  const read: ReadText = (path) => readText(withSlashes(path))
  const own = await read(spec)
  if ('problem' in own) return NO_FILES
  const { extended } = await readExtended({ file: spec, text: own.text }, read)
  const paths = extended.map(({ file }) => withSlashes(file))
  const loaded = loadSpec(own.text, spec, ALL_RULES, extended)
  if ('problems' in loaded) return { ...NO_FILES, extended: paths }
  const beside = (setting: NamedFile | undefined) => {
    if (setting === undefined || isAbsolute(setting.path)) return undefined
    const path = posix.join(posix.dirname(withSlashes(setting.by)), setting.path)
    return path.startsWith('../') ? undefined : path
  }
  const { roster, waivers } = namedFiles(loaded.spec)
  return { extended: paths, named: { roster: beside(roster), waivers: beside(waivers) } }
}

function withSlashes(path: string): string {
  return path.split(sep).join('/')
}
