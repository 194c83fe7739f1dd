import { Git } from './git.ts'
import { Tree } from './tree.ts'

/** A repository with a commit that is checked out. */
export interface Checkout {
  /** From the top of the repository. */
  readonly git: Git
  readonly head: Tree
}

/**
 * What is checked out in a folder; null when it is in no repository, or git is not installed.
 * @throws UsageError when git can't list what the commit has
 */
export async function readCheckout(
  folder: string,
  env: Readonly<Record<string, string | undefined>>,
  signal: AbortSignal,
): Promise<Checkout | null> {
  const found = await new Git(folder, env, signal).checkedOut()
  return found && { git: found.git, head: await Tree.of(found.git, found.commit) }
}
