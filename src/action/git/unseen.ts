import { realpath, stat } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { UsageError } from '../../checking/usage-error.ts'
import { fileKind, isHidden } from '../../delivery/file-kinds.ts'
import { mergedName } from '../../delivery/portability.ts'
import type { FoundFile } from '../../delivery/walk.ts'
import type { Git } from './git.ts'
import type { Scope } from './scope.ts'
import { Tree } from './tree.ts'

/**
 * Refuses a checkout in which portraits of the commit are not where they are judged: a delivery judged in part could
 * pass with portraits missing. So it is with a sparse checkout, a submodule that is left out, and a folder beside the
 * delivery whose name differs in capitals only, which is the delivery itself on other systems.
 * @param head of the commit that is checked out; @param found what is to be judged
 * @throws UsageError
 */
export async function refuseUnseen(
  git: Git,
  head: Tree,
  scope: Scope,
  found: readonly FoundFile[],
): Promise<void> {
  const seen = await Seen.of(found)
  const look = async ({ folder }: Git, tree: Tree, before: string) => {
    for (const [path, { kind, oid }] of tree.entries) {
      const full = join(folder, path)
      if (kind === 'folder' || seen.has(full)) continue
      if (kind !== 'submodule' && fileKind(basename(path)) !== 'picture') continue
      const seat = scope.find(before + path)
      if (seat === null || seat.below.some(isHidden)) continue
      if (kind === 'submodule') {
        const inside = await git.in(full).checkedOut()
        if (inside?.git.folder !== full) throw leftOut(before + path)
        await look(inside.git, await Tree.of(inside.git, oid), `${before + path}/`)
      } else if (!(await seen.hasByAnotherName(full))) throw await unseen(git, before + path, seat.twin)
    }
  }
  await look(git, head, '')
}

/** Files that were found, by where they lie without links on their way; one that is a link itself, by where the link is. */
class Seen {
  readonly #paths: ReadonlySet<string>
  #byMerged: Map<string, string[]> | null = null

  private constructor(paths: ReadonlySet<string>) {
    this.#paths = paths
  }

  static async of(found: readonly FoundFile[]): Promise<Seen> {
    const folders = new Map<string, string>()
    const paths = new Set<string>()
    for (const { path } of found) {
      const folder = dirname(path)
      const real = folders.get(folder) ?? (await realpath(folder))
      folders.set(folder, real)
      paths.add(join(real, basename(path)))
    }
    return new Seen(paths)
  }

  has(path: string): boolean {
    return this.#paths.has(path)
  }

  /** Systems that keep one file for several names may list it under another. */
  async hasByAnotherName(path: string): Promise<boolean> {
    this.#byMerged ??= byMergedName(this.#paths)
    const others = this.#byMerged.get(mergedName(path)) ?? []
    const [own, ...stats] = await Promise.all(
      [path, ...others].map((one) => stat(one, { bigint: true }).catch(() => null)),
    )
    return !!own && stats.some((other) => other?.ino === own.ino && other.dev === own.dev)
  }
}

function byMergedName(paths: Iterable<string>): Map<string, string[]> {
  const groups = new Map<string, string[]>()
  for (const path of paths) {
    const merged = mergedName(path)
    groups.set(merged, [...(groups.get(merged) ?? []), path])
  }
  return groups
}

function leftOut(path: string): UsageError {
  return new UsageError(
    `The submodule ${path} is not checked out and could contain portraits. Set submodules: true in the checkout step, or set paths to folders without it.`,
  )
}

async function unseen(git: Git, path: string, twin: string | null): Promise<UsageError> {
  if (twin !== null)
    return new UsageError(
      `${path} is not in ${twin}, but is on Windows and macOS, where names that differ only in case or accents are the same. Rename its folder, or move it.`,
    )
  // S: the file is in the index and is not to be in the working tree (git-ls-files, option -t).
  const { stdout } = await git.ask('ls-files', '-t', '-z', '--', path)
  return new UsageError(
    stdout.startsWith('S ')
      ? `The checkout is sparse and leaves out portraits, such as ${path}. Add their folders to sparse-checkout in the checkout step, or remove that setting.`
      : `The commit has ${path}, which is not in the checkout. Make sure no earlier step removes or renames portraits.`,
  )
}
