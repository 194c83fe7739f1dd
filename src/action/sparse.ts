import { relative, sep } from 'node:path'
import { UsageError } from '../commands/outputs.ts'
import { fileKind } from '../delivery/file-kinds.ts'
import { isInside } from '../files/folders.ts'
import type { Git } from './git.ts'

/**
 * Refuses a checkout that leaves portraits out: a delivery judged in part could pass with portraits missing.
 * @param paths absolute
 * @throws UsageError when the commit has portraits below the paths that were not checked out
 */
export async function refuseSparse(git: Git, paths: readonly string[]): Promise<void> {
  const own = paths
    .filter((path) => isInside(path, git.folder))
    .map((path) => relative(git.folder, path).split(sep).join('/') || '.')
  if (own.length === 0) return
  // S: the file is in the index and is not to be in the working tree (git-ls-files, option -t).
  const { stdout } = await git.ask('ls-files', '-t', '-z', '--', ...own)
  const left = stdout
    .split('\0')
    .filter((entry) => entry.startsWith('S '))
    .map((entry) => entry.slice(2))
    .filter((path) => fileKind(path.slice(path.lastIndexOf('/') + 1)) === 'picture')
  const [first] = left
  if (first === undefined) return
  throw new UsageError(
    `The checkout is sparse and leaves out ${left.length} of the portraits, such as ${first}. Add their folders to sparse-checkout in the checkout step, or take it out.`,
  )
}
