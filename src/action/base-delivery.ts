import { copyFile, mkdir } from 'node:fs/promises'
import { basename, dirname, join, parse, relative, sep } from 'node:path'
import { UsageError } from '../checking/usage-error.ts'
import { fileKind, isHidden } from '../delivery/file-kinds.ts'
import type { Found, FoundFile } from '../delivery/walk.ts'
import { isInside } from '../files/folders.ts'
import { realPlace } from '../files/real-place.ts'
import { holdsPhotograph } from '../measure/file/container/holds-photograph.ts'
import { byCodePoint } from '../text/code-points.ts'
import type { Comparison } from './git/comparison.ts'
import type { Scope } from './git/scope.ts'
import type { Entry, Tree } from './git/tree.ts'
import { fetchLfs, pointerIn } from './lfs-content.ts'
import { fromTop } from './standard/base-spec.ts'

/** A delivery in a repository, and what its commit is compared with. */
export interface Compared {
  readonly comparison: Comparison
  readonly scope: Scope
  /** Folders and files of the delivery, absolute. */
  readonly paths: readonly string[]
}

/** How the content of Git LFS is fetched; null to take what git has. */
export type Fetching = Parameters<typeof fetchLfs>[2] | null

// Of a name that is no UTF-8 only part can be told.
const UNKNOWN = '\ufffd'

/**
 * The portraits of a delivery as the base commit has them: those that are provably the same from the checkout, the others
 * written into another folder.
 * @param found in the checkout; @param stand an empty folder for the others
 * @returns their paths end as in the checkout, since names are read from there
 * @throws UsageError when that can't be told for certain: of a delivery that lacks one of its portraits, the findings
 *   would be others
 */
export async function baseDelivery(
  { comparison, scope, paths }: Compared,
  found: Found,
  stand: string,
  fetching: Fetching,
): Promise<FoundFile[]> {
  const { base, git } = comparison
  await refuseDetours(comparison, paths)
  const kept = new Map<string, FoundFile>()
  for (const file of found.files) if (await comparison.isSame(file.path)) kept.set(file.path, file)
  const others: FoundFile[] = []
  for (const [way, entry] of base.entries) {
    const path = join(git.folder, way)
    const seat = scope.find(way)
    if (entry.kind === 'folder' || seat === null || kept.has(path)) continue
    if (seat.twin === null && !isLookedAt(path, paths)) continue
    const kind = paths.includes(path) ? 'picture' : fileKind(basename(way))
    if (!mayBePortrait(entry, kind)) continue
    if (await comparison.isSame(path)) {
      if (kind === 'picture') throw untold(`${way} is the same in both commits and was not found`)
      continue
    }
    if (entry.kind === 'submodule' && isUntouched(way, comparison, found, kept)) continue
    if (entry.kind !== 'file') throw untold(`${way} is a ${entry.kind} there`)
    if (seat.twin !== null || way.includes(UNKNOWN) || !isInside(path, found.root))
      throw untold(`it has ${way}, whose place in the delivery is not clear`)
    // The end of the path stays what it is in the checkout.
    const target = join(stand, relative(parse(path).root, path))
    await write(base, { way, entry, target })
    if (kind === 'picture' || holdsPhotograph(target))
      others.push({ path: target, file: relative(found.root, path).split(sep).join('/') })
  }
  if (fetching) {
    const placeOf = ({ file }: FoundFile) => join(found.root, file)
    const fetched = await fetchLfs({ git, tree: base, placeOf }, others, fetching)
    for (const [path, content] of fetched) await copyFile(content, path)
  }
  for (const { path, file } of others)
    if ((await pointerIn(path)) !== null)
      throw untold(`the content of ${file} is in Git LFS and was not fetched; the input lfs-token fetches it`)
  return [...kept.values(), ...others].sort((a, b) => byCodePoint(a.file, b.file))
}

/** Refuses a delivery that a link leads to: what lies behind it in the base, its tree alone does not tell. */
async function refuseDetours({ base, git }: Comparison, paths: readonly string[]): Promise<void> {
  for (const path of paths) {
    const place = fromTop(git.folder, path)
    if (place === null || (await realPlace(path)) !== path) throw untold(`a link leads to ${basename(path)}`)
    const names = place.split('/')
    for (const depth of names.keys()) {
      const way = names.slice(0, depth + 1).join('/')
      const kind = base.entries.get(way)?.kind ?? 'folder'
      if (kind !== 'folder' && !(kind === 'file' && depth === names.length - 1))
        throw untold(`${way} is a ${kind} there`)
    }
  }
}

/** Whether the search for portraits comes by: what is hidden in one folder that is given may be given itself. */
function isLookedAt(path: string, paths: readonly string[]): boolean {
  return paths.some((given) => isInside(path, given) && !relative(given, path).split(sep).some(isHidden))
}

async function write(base: Tree, { way, entry, target }: { way: string; entry: Entry; target: string }) {
  try {
    await mkdir(dirname(target), { recursive: true })
    if (await base.save(entry, target)) return
  } catch (error) {
    if (!(error instanceof Error && 'syscall' in error && 'code' in error)) throw error
    throw untold(`${way} could not be written: ${error.code}`)
  }
  throw untold(`git lacks the content of ${way}`)
}

/** Links are followed, or told, only under the name of a picture; a submodule may hold anything. */
function mayBePortrait({ kind }: Entry, name: ReturnType<typeof fileKind>): boolean {
  if (kind === 'submodule') return true
  return name === 'picture' || (kind === 'file' && name === 'other')
}

/** Whether all portraits in a submodule are provably those that the base has. */
function isUntouched(
  way: string,
  { base, head, git }: Comparison,
  found: Found,
  kept: ReadonlyMap<string, FoundFile>,
): boolean {
  const inside = found.files.filter(({ path }) => isInside(path, join(git.folder, way)))
  return (
    base.entries.get(way)?.oid === head.entries.get(way)?.oid && inside.every(({ path }) => kept.has(path))
  )
}

function untold(why: string): UsageError {
  return new UsageError(
    `What the base commit already had can't be told from what is new (${why}), so all findings count against this change.`,
  )
}
