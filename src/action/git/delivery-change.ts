import { posix } from 'node:path'
import { fileKind, isHidden } from '../../delivery/file-kinds.ts'
import type { FoundFile } from '../../delivery/walk.ts'
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
  const { base, head } = comparison
  const differs = (path: string) =>
    !isSameAt(path, base, head) && [base, head].some((tree) => holds(tree, path, scope))
  const isTouched = changed.size > 0 || [...base.entries.keys(), ...head.entries.keys()].some(differs)
  return { changed, isTouched }
}

/** Whether a commit has at a path a portrait of the delivery, or what may lead to one. */
function holds({ entries }: Tree, path: string, scope: Scope): boolean {
  const kind = entries.get(path)?.kind
  if (kind === undefined || kind === 'folder') return false
  if (kind === 'file' && fileKind(posix.basename(path)) !== 'picture') return false
  const seat = scope.find(path)
  return seat !== null && !seat.below.some(isHidden)
}
