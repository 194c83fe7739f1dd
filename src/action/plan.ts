import { join, resolve } from 'node:path'
import { fromDisk } from '../checking/extended-specs.ts'
import { type Found, findFiles } from '../delivery/walk.ts'
import { count } from '../text/quantity.ts'
import type { Compared } from './base-delivery.ts'
import { findDelivery } from './delivery.ts'
import { type Base, findBase, type NoBase } from './git/base-commit.ts'
import { Comparison } from './git/comparison.ts'
import { deliveryChange } from './git/delivery-change.ts'
import { Scope } from './git/scope.ts'
import { isSameAt, Tree } from './git/tree.ts'
import { refuseUnseen } from './git/unseen.ts'
import { refuseOutside } from './job/outside.ts'
import { type StandardFiles, standardPaths } from './standard/base-spec.ts'
import { baseInForce, type InForce } from './standard/standard-in-force.ts'
import type { Work } from './work.ts'

/** What is to be judged and by what. */
export interface Plan extends InForce {
  readonly found: Found
  /** Absolute paths of the portraits to judge one by one; null for all. */
  readonly only: ReadonlySet<string> | null
  /** Nothing that could be judged has changed. */
  readonly idle: boolean
  /** What the commit is compared with, as long as both are judged by the same; else null. */
  readonly compared: Compared | null
}

/**
 * Decides from git and the event which portraits are to be judged, and by which version of the spec.
 * @throws UsageError when git can't tell, or the checkout lacks what is needed
 */
export async function makePlan({ runner, inputs, checkout, signal }: Work): Promise<Plan> {
  const { workspace, temp } = runner
  const { spec, roster, waivers, gallery, onlyChanged, specFromBase } = inputs
  const files: StandardFiles = { spec, roster, waivers, gallery }
  await refuseOutside(workspace, [...inputs.paths, spec, roster, waivers, gallery])
  const found = await findDelivery(workspace, inputs.paths, signal)
  const paths = inputs.paths.map((path) => resolve(workspace, path))
  const scope = await Scope.of(checkout?.git.folder ?? workspace, paths)
  if (checkout) await refuseUnseen(checkout.git, checkout.head, scope, found.files)
  const plain: Plan = { cwd: workspace, files, found, only: null, idle: false, compared: null, notes: [] }
  if (!onlyChanged && !specFromBase) return plain
  const base = await findBase(checkout, runner)
  if ('none' in base) return { ...plain, notes: [withoutBase(base)] }
  const { comparison, standard } = await compared(base)
  const { changed, isTouched: touchesPortraits } = await deliveryChange(comparison, scope, found.files)
  const inForce = specFromBase
    ? await baseInForce({ standard, comparison, touchesPortraits, workspace, temp }, files)
    : plain
  const told = { ...plain, ...inForce }
  if (!onlyChanged) return told
  if (!(await isStandardSame(comparison, workspace, files))) {
    const note = 'All portraits were judged, since what they are judged by may have changed.'
    return { ...told, notes: [...told.notes, note] }
  }
  const note = touchesPortraits
    ? `Judged one by one: ${count(changed.size, 'portrait that changed', 'portraits that changed')}. The others count only for the delivery as a whole.`
    : 'No portrait changed; nothing was judged.'
  const what = { comparison, scope, paths }
  return { ...told, only: changed, idle: !touchesPortraits, compared: what, notes: [...told.notes, note] }
}

/**
 * Decides by which version of the spec a delivery is judged that was sent.
 * @param path of it, from the workspace on
 * @throws UsageError when git can't tell
 */
export async function planReceiving(path: string, { runner, inputs, checkout }: Work): Promise<InForce> {
  const { workspace, temp } = runner
  const { spec, roster, waivers, gallery, specFromBase } = inputs
  const files: StandardFiles = { spec, roster, waivers, gallery }
  await refuseOutside(workspace, [path, spec, roster, waivers, gallery])
  const plain: InForce = { cwd: workspace, files, notes: [] }
  if (!specFromBase) return plain
  const base = await findBase(checkout, runner)
  if ('none' in base) return { ...plain, notes: [withoutBase(base)] }
  return baseInForce({ ...(await compared(base)), touchesPortraits: true, workspace, temp }, files)
}

function withoutBase({ none }: NoBase): string {
  return `All portraits were judged by the checked-out spec: ${none}.`
}

/** What a change is compared with, and the commit whose spec is in force. */
async function compared({ checkout: { git, head }, since, commit }: Base) {
  const tree = await Tree.of(git, since)
  const standard = commit === since ? tree : await Tree.of(git, commit)
  return { comparison: await Comparison.of(git, tree, head), standard }
}

/** Whether the spec and what goes with it are provably as they were. */
async function isStandardSame(
  comparison: Comparison,
  workspace: string,
  files: StandardFiles,
): Promise<boolean> {
  const { git, base, head } = comparison
  const paths = await standardPaths(git.folder, workspace, files, fromDisk(git.folder, workspace))
  for (const path of paths) {
    const full = join(git.folder, path)
    const isFolder = head.entries.get(path)?.kind === 'folder'
    // Of a folder, what is in it.
    const inside = isFolder ? (await findFiles([full], git.folder)).files.map((file) => file.path) : [full]
    if (isFolder && !isSameAt(path, base, head)) return false
    for (const one of inside) if (!(await comparison.isSame(one))) return false
  }
  return true
}
