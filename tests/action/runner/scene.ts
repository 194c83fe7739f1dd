import { mkdir, mkdtemp, realpath } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Ended, type InProcess, judged } from './in-process.ts'
import { type CheckoutOptions, type Files, Repository } from './repository.ts'

export interface Setting {
  readonly inputs?: Readonly<Record<string, string>>
  readonly depth?: string
  readonly checkout?: CheckoutOptions
  /** What steps before ours do to the checkout. */
  readonly prepare?: (workspace: string) => Promise<void>
  readonly job?: Partial<InProcess>
}

export interface Scene extends Ended {
  readonly workspace: string
  readonly temp: string
}

/** A folder of a test's own, free of links and with a space in its name. */
export async function ownFolder(): Promise<string> {
  return realpath(await mkdtemp(join(tmpdir(), 'a scene ')))
}

/** Runs the action on a pull request: a base, and what the request changes. */
export async function onPullRequest(base: Files, change: Files, setting: Setting = {}): Promise<Scene> {
  return onRequestTo(await Repository.create(await ownFolder(), base), change, setting)
}

/** The same, on a repository that is there. */
export async function onRequestTo(
  repository: Repository,
  change: Files,
  { inputs = {}, depth = '2', checkout = {}, prepare = async () => {}, job = {} }: Setting = {},
): Promise<Scene> {
  const { sha, event } = await repository.pullRequest(change)
  const home = await ownFolder()
  const [workspace, temp] = [join(home, 'work'), join(home, 'temp')]
  await mkdir(temp)
  await repository.checkout(workspace, sha, depth, checkout)
  await prepare(workspace)
  const runner = { workspace, temp, eventName: 'pull_request', event, sha, ...job }
  return { ...(await judged({ paths: 'portraits', ...inputs }, runner)), workspace, temp }
}

export const ONLY_CHANGED = { 'only-changed': 'true' }
