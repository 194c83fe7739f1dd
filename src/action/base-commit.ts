import { readFile } from 'node:fs/promises'
import { UsageError } from '../commands/outputs.ts'
import type { Git } from './git.ts'
import type { Runner } from './runner.ts'

/** What a change is compared with. */
export interface Base {
  /** The commit whose spec is in force. */
  readonly commit: string
  /** The commit since which files count as changed. */
  readonly since: string
}

/** Why there is nothing to compare with: part of a sentence. */
export interface NoBase {
  readonly none: string
}

// SHA-1 or SHA-256 in hex.
const COMMIT = /^(?:[0-9a-f]{40}|[0-9a-f]{64})$/

/**
 * Finds the commit that a change is to be compared with, from git and the event alone.
 *
 * For a pull request the runner checks out a merge commit that the server made: its first parent is the tip of the
 * base branch. Any other commit may be the author's own, whose parents prove nothing: then the event tells the base.
 * @throws UsageError when the history that is needed was not fetched, or the event is one that can't be judged safely
 */
export async function findBase(git: Git, runner: Runner): Promise<Base | NoBase> {
  const { eventName } = runner
  if (eventName === 'pull_request') return ofPullRequest(git, runner)
  if (eventName === 'merge_group')
    return ofEvent(git, sha(await readEvent(runner), 'merge_group', 'base_sha'))
  if (eventName === 'pull_request_target')
    throw new UsageError(
      'The workflow runs on pull_request_target, with the rights of the repository on files of strangers; run it on pull_request.',
    )
  if (eventName === 'push') return ofPush(git, sha(await readEvent(runner), 'before'))
  return { none: eventName === '' ? 'there is no event' : `the event ${eventName} has no base` }
}

async function ofPullRequest(git: Git, runner: Runner): Promise<Base> {
  const head = (await git.ask('rev-parse', 'HEAD')).stdout.trim()
  const parents = head === runner.sha ? await git.parents(head) : []
  const [first] = parents
  if (parents.length !== 2 || first === undefined)
    return ofEvent(git, sha(await readEvent(runner), 'pull_request', 'base', 'sha'))
  if (!(await git.hasCommit(first))) throw tooShallow('2')
  return { commit: first, since: first }
}

async function ofEvent(git: Git, commit: string | null): Promise<Base> {
  if (commit === null)
    throw new UsageError(
      'The event does not tell the base commit; run this on pull_request, merge_group or push, or set only-changed and spec-from-base to false.',
    )
  if (!(await git.hasCommit(commit))) throw tooShallow('0')
  const { ok, stdout } = await git.ask('merge-base', commit, 'HEAD')
  if (!ok) throw tooShallow('0')
  return { commit, since: stdout.trim() }
}

async function ofPush(git: Git, before: string | null): Promise<Base | NoBase> {
  if (before === null || /^0+$/.test(before)) return { none: 'nothing was there before this push' }
  if (await git.hasCommit(before)) return { commit: before, since: before }
  if (await git.isShallow()) throw tooShallow('0')
  return { none: 'the commit before this push is gone' }
}

function tooShallow(depth: '0' | '2'): UsageError {
  const why =
    depth === '2' ? 'the base of the pull request' : 'the history back to the base, which may be long'
  return new UsageError(
    `The checkout has too little history: it lacks ${why}. Set fetch-depth: ${depth} in the checkout step.`,
  )
}

async function readEvent({ eventPath }: Runner): Promise<unknown> {
  if (eventPath === null) return null
  try {
    return JSON.parse(await readFile(eventPath, 'utf8'))
  } catch {
    return null
  }
}

function sha(event: unknown, ...keys: readonly string[]): string | null {
  let value = event
  for (const key of keys) {
    if (typeof value !== 'object' || value === null) return null
    value = Reflect.get(value, key)
  }
  return typeof value === 'string' && COMMIT.test(value) ? value : null
}
