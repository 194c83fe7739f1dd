import { mkdtemp, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { type Check, checkExit, checkShowing } from '../checking/check-delivery.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { readStandard } from '../checking/standard.ts'
import { UsageError } from '../checking/usage-error.ts'
import { isInShard } from '../delivery/shard.ts'
import type { FoundFile } from '../delivery/walk.ts'
import { baseDelivery, type Fetching } from './base-delivery.ts'
import { fetchLfs } from './lfs-content.ts'
import { makePlan, type Plan } from './plan.ts'
import { optionsOf } from './standard/standard-options.ts'
import { NO_OUTPUTS, type Told } from './telling/told.ts'
import { refused } from './telling/trouble.ts'
import type { Judged, Work } from './work.ts'

/**
 * Measures and judges the portraits of the workspace.
 * @param host to which sentences are said; @param said what was said so far
 * @throws UsageError when the inputs or the checkout are not fit for it
 */
export async function judgeDelivery(work: Work, host: Host, said: readonly string[]): Promise<Judged | Told> {
  const { runner, inputs, checkout, cache, log } = work
  const plan = await makePlan(work)
  const notes = [...plan.notes]
  if (plan.idle) {
    for (const note of notes) log.write(`${note}\n`)
    return { annotations: [], notes, page: null, outputs: NO_OUTPUTS, exit: EXIT.fine }
  }
  const measuring = { cache: cache ?? (false as const), rehash: false }
  const here = { ...host, cwd: plan.cwd }
  const read = await readStandard({ ...optionsOf(plan), ...measuring }, here)
  if (!read) return refused(said, plan, runner.workspace)
  const { strict, shard } = inputs
  const { found, only } = await withLfsContent(plan, work)
  const at = new Date()
  const origin = { commit: checkout?.head.commit ?? null, run: runner.run }
  const { standard, sources } = read
  const part = shard && { shard, origin, sources }
  const stand = await mkdtemp(join(runner.temp, 'portrait-gate-base-'))
  const before = plan.compared && (() => beforeChange(plan, work, stand, notes))
  const check: Check = { found, standard, at, part, only, before, strict }
  // What is in it shows faces, and other steps come after this one.
  const report = await checkShowing(check, measuring, here).finally(() => rm(stand, { recursive: true }))
  return {
    report,
    at,
    root: found.root,
    portraits: found.files,
    judgedBy: read,
    notes,
    exit: checkExit(report),
  }
}

/** The portraits as they were before the change; null, with a note, when that can't be told for certain. */
async function beforeChange(
  { compared, found }: Plan,
  work: Work,
  stand: string,
  notes: string[],
): Promise<FoundFile[] | null> {
  if (!compared) return null
  try {
    return await baseDelivery(compared, found, stand, fetchingOf(work))
  } catch (error) {
    if (!(error instanceof UsageError)) throw error
    notes.push(error.message)
    return null
  }
}

/** How the content of Git LFS is fetched; null when it is not to be. */
function fetchingOf({ inputs: { lfsToken: token }, env }: Work): Fetching {
  return token === null ? null : { server: env.GITHUB_SERVER_URL || 'https://github.com', token }
}

/** The plan with the content of Git LFS files in their place, where it is to be fetched; of a part, its own only. */
async function withLfsContent({ found, only }: Plan, work: Work): Promise<Pick<Plan, 'found' | 'only'>> {
  const { shard } = work.inputs
  const fetching = fetchingOf(work)
  if (!fetching || !work.checkout) return { found, only }
  const { git, head } = work.checkout
  const own = found.files.filter(({ file }) => shard === null || isInShard(file, shard))
  const fetched = await fetchLfs({ git, tree: head }, own, fetching)
  const placeOf = (path: string) => fetched.get(path) ?? path
  const files = found.files.map((one) => ({ ...one, path: placeOf(one.path) }))
  return { found: { ...found, files }, only: only && new Set([...only].map(placeOf)) }
}
