import { posix } from 'node:path'
import { fileKind, isHidden } from '../../delivery/file-kinds.ts'
import type { FoundFile } from '../../delivery/walk.ts'
import { beginsAsPhotograph } from '../../measure/file/container/holds-photograph.ts'
import { sniff } from '../../measure/file/container/sniff.ts'
import type { Comparison } from './comparison.ts'
import type { Scope } from './scope.ts'
import { isSameAt, type Tree } from './tree.ts'

/** What a change does to a delivery. */
export interface DeliveryChange {
  /** Absolute paths of the files that are not provably as they were. */
  readonly changed: ReadonlySet<string>
  /** Whether anything of the delivery changed, by a portrait that was taken away too. */
  readonly isTouched: boolean
}

/** @param found what is to be judged */
export async function deliveryChange(
  comparison: Comparison,
  scope: Scope,
  found: readonly FoundFile[],
): Promise<DeliveryChange> {
  const changed = new Set<string>()
  for (const { path } of found) if (!(await comparison.isSame(path))) changed.add(path)
  return { changed, isTouched: changed.size > 0 || (await differs(comparison, scope)) }
}

/** Whether one of two commits has a portrait of the delivery that the other lacks or has otherwise. */
async function differs({ base, head }: Comparison, scope: Scope): Promise<boolean> {
  for (const tree of [base, head])
    for (const path of tree.entries.keys())
      if (!isSameAt(path, base, head) && (await holds(tree, path, scope))) return true
  return false
}

/** Whether a commit has at a path a portrait of the delivery, or what may lead to one. */
async function holds(tree: Tree, path: string, scope: Scope): Promise<boolean> {
  const kind = tree.entries.get(path)?.kind
  if (kind === undefined || kind === 'folder') return false
  const seat = scope.find(path)
  if (seat === null || seat.below.some(isHidden)) return false
  if (kind !== 'file' || fileKind(posix.basename(path)) === 'picture') return true
  const content = await tree.content(path)
  return content !== null && (sniff(content) === 'lfs-pointer' || beginsAsPhotograph(content))
}
