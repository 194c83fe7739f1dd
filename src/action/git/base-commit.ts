import { UsageError } from '../../checking/usage-error.ts'
import { eventValue, readEvent } from '../job/event.ts'
import type { Runner } from '../job/runner.ts'
import type { Checkout } from './checkout.ts'

/** What a change is compared with. */
export interface Base {
  /** The commit whose spec is in force. */
  readonly commit: string
  /** The commit since which files count as changed. */
  readonly since: string
  readonly checkout: Checkout
}

/** Why there is nothing to compare with: part of a sentence. */
export interface NoBase {
  readonly none: string
}

// SHA-1 or SHA-256 in hex.
const COMMIT = /^(?:[0-9a-f]{40}|[0-9a-f]{64})$/

// Their payload names the pull request; the others that concern one run with the rights of the repository.
const PULL_REQUESTS = ['pull_request', 'pull_request_review', 'pull_request_review_comment']
// Nobody proposes a change: what is checked out is what the repository has.
const BASELESS = ['', 'schedule', 'workflow_dispatch', 'repository_dispatch', 'release', 'create']

/** @throws UsageError when the event runs a stranger's change with the rights of the repository */
export function refuseRights({ eventName }: Runner): void {
  if (eventName !== 'pull_request_target') return
  throw new UsageError(
    "The workflow runs on pull_request_target, which gives strangers' files the repository's rights; run it on pull_request.",
  )
}

/**
 * Finds the commit that a change is to be compared with, from git and the event alone.
 *
 * For a pull request the runner checks out a merge commit that the server made: its first parent is the tip of the
 * base branch. Any other commit may be the author's own, whose parents prove nothing: then the event tells the base.
 * @throws UsageError when the history that is needed was not fetched, or the event does not tell
 */
export async function findBase(checkout: Checkout | null, runner: Runner): Promise<Base | NoBase> {
  const { eventName } = runner
  if (BASELESS.includes(eventName))
    return without(
      checkout,
      runner,
      eventName === '' ? 'there is no event' : `the event ${eventName} has no base`,
    )
  if (!checkout)
    throw new UsageError(
      'The workspace is not a git repository, which only-changed and spec-from-base need. Check it out with git installed (in a job container too), or set both to false.',
    )
  if (PULL_REQUESTS.includes(eventName)) return ofPullRequest(checkout, runner)
  if (eventName === 'push') return ofPush(checkout, runner)
  const base = eventName === 'merge_group' ? sha(await readEvent(runner), 'merge_group', 'base_sha') : null
  return ofEvent(checkout, base)
}

/** @throws UsageError when another commit is checked out than that of the event: it may be a stranger's change */
function without(checkout: Checkout | null, { sha, eventName }: Runner, none: string): NoBase {
  if (checkout === null || sha === null || checkout.head.commit === sha) return { none }
  throw new UsageError(
    `The checkout is not at the commit of the event ${eventName}, so what it should be compared with is not known. Take ref out of the checkout step, or set only-changed and spec-from-base to false.`,
  )
}

async function ofPullRequest(checkout: Checkout, runner: Runner): Promise<Base> {
  const { git, head } = checkout
  const event = await readEvent(runner)
  // Some forges start the run on the author's commit, which may be a merge of the author's making.
  const own = sha(event, 'pull_request', 'head', 'sha')
  const isServers = head.commit === runner.sha && own !== null && own !== head.commit
  const parents = isServers ? await git.parents(head.commit) : []
  const [first] = parents
  if (parents.length !== 2 || first === undefined)
    return ofEvent(checkout, sha(event, 'pull_request', 'base', 'sha'))
  if (!(await git.hasCommit(first))) throw tooShallow('2')
  return { commit: first, since: first, checkout }
}

async function ofEvent(checkout: Checkout, commit: string | null): Promise<Base> {
  if (commit === null)
    throw new UsageError(
      'The event does not name the base commit; run this on pull_request, merge_group or push, or set only-changed and spec-from-base to false.',
    )
  const { git, head } = checkout
  if (!(await git.hasCommit(commit))) throw tooShallow('0')
  const { ok, stdout } = await git.ask('merge-base', '--all', commit, head.commit)
  const [since, ...others] = stdout.trim().split('\n')
  if (!ok || since === undefined) throw tooShallow('0')
  // Where history ends early, a nearer one may be hidden.
  if (since !== commit && (await git.isShallow())) throw tooShallow('0')
  // Histories that were merged crosswise meet in several commits, each of which may have what the base does not have any
  // more: only what is as at its tip stays so when this is merged.
  return { commit, since: others.length > 0 ? commit : since, checkout }
}

async function ofPush(checkout: Checkout, runner: Runner): Promise<Base | NoBase> {
  const { git } = checkout
  const before = sha(await readEvent(runner), 'before')
  if (before === null) return ofEvent(checkout, null)
  if (/^0+$/.test(before)) return without(checkout, runner, 'nothing was there before this push')
  if (await git.hasCommit(before)) return { commit: before, since: before, checkout }
  if (await git.isShallow()) throw tooShallow('0')
  return without(checkout, runner, 'the commit before this push is gone')
}

function tooShallow(depth: '0' | '2'): UsageError {
  const why =
    depth === '2' ? 'the base of the pull request' : 'the history back to the base, which may be long'
  return new UsageError(
    `The checkout has too little history: it lacks ${why}. Set fetch-depth: ${depth} in the checkout step.`,
  )
}

function sha(event: unknown, ...keys: readonly string[]): string | null {
  const value = eventValue(event, ...keys)
  return typeof value === 'string' && COMMIT.test(value) ? value : null
}
