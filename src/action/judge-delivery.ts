import { checkExit, checkShowing } from '../checking/check-delivery.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { readStandard } from '../checking/standard.ts'
import { makePlan } from './plan.ts'
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
  const { found, only, notes } = plan
  if (plan.idle) {
    for (const note of notes) log.write(`${note}\n`)
    return { annotations: [], notes, page: null, outputs: NO_OUTPUTS, exit: EXIT.fine }
  }
  const measuring = { cache: cache ?? (false as const), rehash: false }
  const here = { ...host, cwd: plan.cwd }
  const read = await readStandard({ ...optionsOf(plan.files), ...measuring }, here)
  if (!read) return refused(said, plan, runner.workspace)
  const { strict, shard } = inputs
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
