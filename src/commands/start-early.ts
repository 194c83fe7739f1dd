import { existsSync } from 'node:fs'
import { join, resolve } from 'node:path'
import type { Host } from '../checking/host.ts'
import type { Early } from '../pool/early.ts'

/**
 * Starts a worker while a command is loaded and reads its spec, where there will be something to measure. Null where all may be known from
 * earlier runs, which a worker that starts beside would only slow down, and where only help is asked for.
 */
export async function startEarly(args: readonly string[], host: Omit<Host, 'early'>): Promise<Early | null> {
  if (host.workers === 0 || args.includes('--help') || args.includes('-h') || mayBeKnown(args, host))
    return null
  const { Early } = await import('../pool/early.ts')
  return new Early(host.workers)
}

const CACHE = '--cache'

/** Whether there is a cache to look portraits up in. */
function mayBeKnown(args: readonly string[], { cwd, userCache }: Pick<Host, 'cwd' | 'userCache'>): boolean {
  if (args.includes('--no-cache')) return false
  const joined = args.find((arg) => arg.startsWith(`${CACHE}=`))?.slice(CACHE.length + 1)
  const named = joined ?? args.find((_, i) => args[i - 1] === CACHE)
  const folder = named === undefined ? userCache && join(userCache, 'entries') : resolve(cwd, named)
  return folder !== null && existsSync(folder)
}
