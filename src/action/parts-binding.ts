import { isDeepStrictEqual } from 'node:util'
import type { Host } from '../checking/host.ts'
import { readSources } from '../checking/standard.ts'
import { UsageError } from '../checking/usage-error.ts'
import type { Parts } from '../commands/reading/read-parts.ts'
import { listingHash } from '../delivery/shard.ts'
import type { Sources } from '../judge/part.ts'
import { committedHash } from './committed-hash.ts'
import type { Checkout } from './git/checkout.ts'
import type { Runner } from './job/runner.ts'
import type { Plan } from './plan.ts'
import { optionsOf } from './standard/standard-options.ts'

/** @throws UsageError when the parts come from another run of a workflow or another commit */
export function refuseOtherRuns({ origin }: Parts, { run, sha }: Runner, checkout: Checkout | null): void {
  const commit = checkout?.head.commit ?? sha
  if (origin !== null && origin.run === run && origin.commit === commit) return
  throw new UsageError(
    `The reports to merge are of ${origin === null ? 'no run of a workflow' : `run ${origin.run}, commit ${origin.commit}`}; this is run ${run}, commit ${commit}. Keep the reports of this run's own jobs, which check out the same commit.`,
  )
}

/**
 * Refuses parts that do not fit what is checked out.
 * @param plan by which the delivery is judged here; @param host whose folder is the plan's
 * @throws UsageError when they list other files, measured other pictures, or were judged by other texts
 */
export async function refuseForgedParts(parts: Parts, plan: Plan, host: Host): Promise<void> {
  const refuse = (what: string): never => {
    throw new UsageError(
      `The reports to merge ${what}. Give the jobs of the parts and this one the same inputs and the same commit.`,
    )
  }
  const files = plan.found.files.map(({ file }) => file)
  if (listingHash(files) !== parts.listing) refuse('are of other files than those that are checked out')
  // A gallery may be a folder, whose pictures are not needed here.
  const inForce = { cwd: plan.cwd, files: { ...plan.files, gallery: null } }
  const options = { ...optionsOf(inForce), cache: false as const, rehash: false }
  const read = await readSources(options, host)
  const textsOf = ({ spec, extended, roster, waivers }: Sources) =>
    [spec, roster, waivers, ...extended].map((one) => one?.text)
  if (read === null || !isDeepStrictEqual(textsOf(read.sources), textsOf(parts.sources)))
    refuse('were judged by another spec, roster or waivers than those in force')
  const measured = new Map(parts.files.map((one) => [one.name.path, one.measured]))
  for (const { file, path } of plan.found.files) {
    host.signal.throwIfAborted()
    const { sha256 = null, fault = null } = measured.get(file) ?? {}
    // What could not be read fails; of all else the hash is known.
    if (fault === null && sha256 !== (await committedHash(path)))
      refuse(`measured another picture as ${file}`)
  }
}
