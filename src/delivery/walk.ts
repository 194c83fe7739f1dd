import type { Stats } from 'node:fs'
import { realpath, stat } from 'node:fs/promises'
import { dirname, relative, resolve, sep } from 'node:path'
import { commonFolder, isInside } from '../files/folders.ts'
import { byCodePoint } from '../text/code-points.ts'
import { Search } from './search.ts'

export interface FindOptions {
  readonly signal?: AbortSignal
  /** Whether a file whose name does not tell is a picture all the same; none is unless told. */
  readonly holdsPhotograph?: (path: string | Buffer) => boolean
}

export interface FoundFile {
  /** Absolute. */
  readonly path: string
  /** Relative to the delivery root, with `/`. */
  readonly file: string
  /** Where it leads, when it is a link to anything but a file in the root: "out of the delivery". */
  readonly astray?: string
}

export interface Found {
  /** Absolute path of the delivery root, which relative names refer to. */
  readonly root: string
  /** By code point of `file`; each file once. */
  readonly files: readonly FoundFile[]
  /**
   * How many were left alone: `hidden` files and folders; `sidecars` (metadata, lists and notes beside pictures);
   * `links` whose names are none of a picture; and `other` files whose extension is none of a picture.
   */
  readonly left: {
    readonly hidden: number
    readonly sidecars: number
    readonly links: number
    readonly other: number
  }
  /** Paths as given that do not exist. */
  readonly missing: readonly string[]
  /** Folders that could not be listed (absolute), and paths as given that could not be looked at. */
  readonly unreadable: readonly string[]
}

/**
 * Finds the pictures to judge. Folders are walked; a file given by name is judged whatever its extension.
 *
 * The root is the folder given, or the nearest folder that holds all that was given; for files alone it is `cwd` when
 * they lie in it. Links to folders are not followed (inside the root their target is walked anyway), links to files
 * only inside the root: nothing outside it is read, and no loop can be entered. A link that has the name of a picture and
 * leads elsewhere is found as one that is astray.
 *
 * @param paths absolute, or relative to `cwd`
 * @throws the signal's reason when it is aborted
 */
export async function findFiles(
  paths: readonly string[],
  cwd: string,
  { signal, holdsPhotograph = () => false }: FindOptions = {},
): Promise<Found> {
  const given = await Promise.all([...new Set(paths)].map((path) => lookAt(path, cwd)))
  const existing = given.filter((one) => 'stats' in one)
  const root = rootOf(existing, cwd)
  const search = new Search(await realpath(root), holdsPhotograph)
  for (const { path, stats } of existing) {
    if (stats.isDirectory()) await search.walk(path, signal)
    else await search.addFile(path)
  }
  const within = root.endsWith(sep) ? root : `${root}${sep}`
  const fromRoot = (path: string) =>
    path.startsWith(within) ? path.slice(within.length) : relative(root, path)
  return {
    root,
    files: [...search.pictures]
      .map(([path, astray]) => ({
        path,
        file: fromRoot(path).replaceAll(sep, '/'),
        ...(astray !== null && { astray }),
      }))
      .sort((a, b) => byCodePoint(a.file, b.file)),
    left: search.left,
    missing: given.flatMap((one) => ('missing' in one ? [one.missing] : [])),
    unreadable: [...given.flatMap((one) => ('refused' in one ? [one.refused] : [])), ...search.unreadable],
  }
}

interface Existing {
  readonly path: string
  readonly stats: Stats
}
type Given = Existing | { readonly missing: string } | { readonly refused: string }

async function lookAt(given: string, cwd: string): Promise<Given> {
  const path = resolve(cwd, given)
  try {
    return { path, stats: await stat(path) }
  } catch (error) {
    const gone =
      error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'ENOTDIR')
    return gone ? { missing: given } : { refused: given }
  }
}

function rootOf(existing: readonly Existing[], cwd: string): string {
  const folders = existing.map(({ path, stats }) => (stats.isDirectory() ? path : dirname(path)))
  const filesOnly = existing.every(({ stats }) => !stats.isDirectory())
  if (filesOnly && folders.every((folder) => isInside(folder, cwd))) return cwd
  return commonFolder(folders) ?? cwd
}
