import { mkdtemp, writeFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { UsageError } from '../commands/outputs.ts'
import { fileKind } from '../delivery/file-kinds.ts'
import { isInside } from '../files/folders.ts'
import { readSourceText } from '../files/source-text.ts'
import { count } from '../text/quantity.ts'
import { findBase } from './base-commit.ts'
import { type StandardFiles, standardPaths } from './base-spec.ts'
import { type Changes, changedFiles } from './changed-files.ts'
import { Git } from './git.ts'
import type { Inputs } from './inputs.ts'
import { refuseOutside } from './outside.ts'
import type { Runner } from './runner.ts'
import { refuseSparse } from './sparse.ts'
import { baseInForce, type InForce } from './standard-in-force.ts'

/** What is to be judged and by what. */
export interface Plan extends InForce {
  /** File that lists the portraits to judge one by one; null for all. */
  readonly only: string | null
  /** Nothing that could be judged has changed. */
  readonly idle: boolean
}

export interface Surroundings {
  readonly runner: Runner
  readonly inputs: Inputs
  readonly env: Readonly<Record<string, string | undefined>>
  readonly signal: AbortSignal
}

/**
 * Decides from git and the event which portraits are to be judged, and by which version of the spec.
 * @throws UsageError when git can't tell, or the checkout lacks what is needed
 */
export async function makePlan({ runner, inputs, env, signal }: Surroundings): Promise<Plan> {
  const { workspace, temp } = runner
  const { spec, roster, waivers, gallery, onlyChanged, specFromBase } = inputs
  const files: StandardFiles = { spec, roster, waivers, gallery }
  await refuseOutside(workspace, [...inputs.paths, spec, roster, waivers, gallery])
  const paths = inputs.paths.map((path) => resolve(workspace, path))
  const git = await new Git(workspace, env, signal).top()
  if (git) await refuseSparse(git, paths)
  const plain: Plan = { cwd: workspace, files, only: null, idle: false, notes: [] }
  if (!onlyChanged && !specFromBase) return plain
  if (!git)
    throw new UsageError(
      'The workspace is no git repository, which only-changed and spec-from-base need. Check it out with git installed (in a job container too), or set both to false.',
    )
  const base = await findBase(git, runner)
  if ('none' in base) {
    const note = `All portraits were judged, by the spec as it is checked out: ${base.none}.`
    return { ...plain, notes: onlyChanged ? [note] : [] }
  }
  const changes = await changedFiles(git, base.since)
  const inForce = specFromBase
    ? await baseInForce(git, { workspace, temp, ...base, ...changes }, files)
    : plain
  const told = { ...plain, ...inForce }
  if (!onlyChanged) return told
  if (await isTouched(git, workspace, { files, changes })) {
    const note = 'All portraits were judged, since what they are judged by has changed.'
    return { ...told, notes: [...told.notes, note] }
  }
  return { ...told, ...(await onlyThe(changes, { git, paths, temp, notes: told.notes })) }
}

/** Whether the spec or what goes with it has changed. */
async function isTouched(
  git: Git,
  workspace: string,
  { files, changes }: { files: StandardFiles; changes: Changes },
): Promise<boolean> {
  const text = await readSourceText(resolve(workspace, files.spec))
  const watched = standardPaths(git, workspace, files, 'text' in text ? text.text : '')
  // A gallery may be a folder.
  return [...changes.present, ...changes.removed].some((path) =>
    watched.some((one) => path === one || path.startsWith(`${one}/`)),
  )
}

async function onlyThe(
  { present, removed }: Changes,
  { git, paths, temp, notes }: { git: Git; paths: readonly string[]; temp: string; notes: readonly string[] },
): Promise<Pick<Plan, 'only' | 'idle' | 'notes'>> {
  const isOwn = (path: string) =>
    fileKind(path.slice(path.lastIndexOf('/') + 1)) === 'picture' &&
    paths.some((folder) => isInside(join(git.folder, path), folder))
  const changed = present.filter(isOwn)
  const idle = changed.length === 0 && !removed.some(isOwn)
  const only = join(await mkdtemp(join(temp, 'portrait-gate-')), 'changed')
  await writeFile(only, changed.map((path) => `${join(git.folder, path)}\0`).join(''))
  const note = idle
    ? 'No portrait changed; nothing was judged.'
    : `Judged one by one: ${count(changed.length, 'portrait that changed', 'portraits that changed')}. The others count only for the delivery as a whole.`
  return { only, idle, notes: [...notes, note] }
}
