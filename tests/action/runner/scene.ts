import { mkdir, mkdtemp, realpath } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Ended, type InProcess, judged } from './in-process.ts'
import {
  type CheckoutOptions,
  checkoutRequest,
  type Files,
  Repository,
  type Request,
  type Requested,
} from './repository.ts'

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
  if (setting.depth === undefined && setting.checkout === undefined)
    return judgedIn((workspace) => checkoutRequest(workspace, base, change), setting)
  return onRequest(await Repository.withRequest(await ownFolder(), base, change), setting)
}

/** The same, on a repository that is there. */
export async function onRequestTo(repository: Repository, change: Files, setting?: Setting): Promise<Scene> {
  return onRequest({ repository, ...(await repository.pullRequest(change)) }, setting)
}

async function onRequest({ repository, ...request }: Requested, setting: Setting = {}): Promise<Scene> {
  const { depth = '2', checkout } = setting
  return judgedIn(async (workspace) => {
    await repository.checkout(workspace, request.sha, depth, checkout)
    return request
  }, setting)
}

async function judgedIn(
  checkOut: (workspace: string) => Promise<Request>,
  { inputs = {}, prepare = async () => {}, job = {} }: Setting,
): Promise<Scene> {
  const home = await ownFolder()
  const [workspace, temp] = [join(home, 'work'), join(home, 'temp')]
  await mkdir(temp)
  const request = await checkOut(workspace)
  await prepare(workspace)
  const runner = { workspace, temp, eventName: 'pull_request', ...request, ...job }
  return { ...(await judged({ paths: 'portraits', ...inputs }, runner)), workspace, temp }
}

export const ONLY_CHANGED = { 'only-changed': 'true' }
