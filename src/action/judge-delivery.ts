import { checkExit, checkShowing } from '../checking/check-delivery.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { readStandard } from '../checking/standard.ts'
import { isInShard } from '../delivery/shard.ts'
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
  const { notes } = plan
  if (plan.idle) {
    for (const note of notes) log.write(`${note}\n`)
    return { annotations: [], notes, page: null, outputs: NO_OUTPUTS, exit: EXIT.fine }
  }
  const measuring = { cache: cache ?? (false as const), rehash: false }
  const here = { ...host, cwd: plan.cwd }
  const read = await readStandard({ ...optionsOf(plan.files), ...measuring }, here)
  if (!read) return refused(said, plan, runner.workspace)
  const { strict, shard } = inputs
  const { found, only } = await withLfsContent(plan, work)
  const at = new Date()
  const origin = { commit: checkout?.head.commit ?? null, run: runner.run }
  const { standard, sources } = read
  const part = shard && { shard, origin, sources }
  const report = await checkShowing({ found, standard, at, part, only, strict }, measuring, here)
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

/** The plan with the content of Git LFS files in their place, where it is to be fetched; of a part, its own only. */
async function withLfsContent(
  { found, only }: Plan,
  { inputs, checkout, env }: Work,
): Promise<Pick<Plan, 'found' | 'only'>> {
  const { shard, lfsToken: token } = inputs
  if (token === null || !checkout) return { found, only }
  const own = found.files.filter(({ file }) => shard === null || isInShard(file, shard))
  const server = env.GITHUB_SERVER_URL || 'https://github.com'
  const fetched = await fetchLfs(checkout.git, own, { server, token })
  const placeOf = (path: string) => fetched.get(path) ?? path
  const files = found.files.map((one) => ({ ...one, path: placeOf(one.path) }))
  return { found: { ...found, files }, only: only && new Set([...only].map(placeOf)) }
}
