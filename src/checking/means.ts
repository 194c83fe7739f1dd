import { access, constants, mkdir } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { openEntries } from '../cache/entries.ts'
import { openIndex } from '../cache/file-index.ts'
import { measurerId } from '../cache/measurer.ts'
import type { Cache } from '../pool/look-up.ts'
import type { Means, Progress } from '../pool/measure-all.ts'
import type { Host } from './host.ts'
import { UsageError } from './usage-error.ts'

/** How portraits are to be measured. */
export interface MeasuringOptions {
  /** A folder; false for none; absent for the user's own. */
  readonly cache?: string | false
  readonly rehash: boolean
}

/**
 * What portraits are measured with.
 * @throws UsageError when the folder that the command line names can't be written to
 */
export async function meansOf(
  options: MeasuringOptions,
  host: Host,
  progress: (progress: Progress) => void,
): Promise<Means> {
  const { signal, workers, early } = host
  return { signal, progress, workers, early, cache: await cacheOf(options, host) }
}

async function cacheOf({ cache, rehash }: MeasuringOptions, { cwd, userCache }: Host): Promise<Cache | null> {
  if (cache === false) return null
  const folder = cache === undefined ? userCache && join(userCache, 'entries') : resolve(cwd, cache)
  if (folder === null) return null
  const refusal = await whyNot(folder)
  if (refusal !== null && cache !== undefined)
    throw new UsageError(
      `The --cache folder ${cache} can't be written to (${refusal}). Name another, or leave the option out.`,
    )
  if (refusal !== null) return null
  return {
    entries: openEntries({ folder, measurer: measurerId() }),
    // Inodes and times mean something on this machine only, and the hashes open the entries: both stay at home.
    index: rehash || userCache === null ? null : openIndex(join(userCache, 'index')),
  }
}

/** The system's word for why a folder can't be written to; null when it can. */
async function whyNot(folder: string): Promise<string | null> {
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 })
    await access(folder, constants.W_OK | constants.X_OK)
    return null
  } catch (error) {
    return error instanceof Error && 'code' in error ? String(error.code) : String(error)
  }
}
