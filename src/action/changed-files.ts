import { UsageError } from '../commands/outputs.ts'
import type { Git } from './git.ts'

/** What changed between a commit and the one that is checked out; paths from the top of the repository, with /. */
export interface Changes {
  /** Added or changed, under their new names. */
  readonly present: readonly string[]
  /** Removed, or moved away from here. */
  readonly removed: readonly string[]
}

/** A renamed or copied file counts as removed there and added here. @throws UsageError when git can't tell */
export async function changedFiles(git: Git, since: string): Promise<Changes> {
  const { ok, stdout } = await git.ask(
    ...['diff', '--name-status', '--no-renames', '--no-ext-diff', '--ignore-submodules', '-z'],
    ...[since, 'HEAD', '--'],
  )
  if (!ok)
    throw new UsageError(
      `Git can't tell what changed since ${since.slice(0, 12)}. Set fetch-depth: 0 in the checkout step and no filter.`,
    )
  return parseNameStatus(stdout)
}

/** Reads `git diff --name-status -z --no-renames`: a letter and a path in turn, each ended by a zero byte. */
function parseNameStatus(text: string): Changes {
  const parts = text.split('\0')
  const present: string[] = []
  const removed: string[] = []
  for (let i = 0; i + 1 < parts.length; i += 2) {
    const path = parts[i + 1] ?? ''
    if (parts[i] === 'D') removed.push(path)
    else present.push(path)
  }
  return { present, removed }
}
