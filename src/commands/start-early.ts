import { existsSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import type { Host } from '../checking/host.ts'
import { readHead } from '../files/read-at-most.ts'
import type { Early } from '../pool/early.ts'

/**
 * Starts a worker while a command is loaded and reads its spec, where there will be something to measure. Null where all may be known from
 * earlier runs, which a worker that starts beside would only slow down, and where only help is asked for.
 */
export async function startEarly(args: readonly string[], host: Omit<Host, 'early'>): Promise<Early | null> {
  if (host.workers === 0 || args.includes('--help') || args.includes('-h') || mayBeKnown(args, host))
    return null
  const { Early } = await import('../pool/early.ts')
  return new Early(host.workers, looksAtPixels(args, host))
}

/** Whether there is a cache to look portraits up in. */
function mayBeKnown(args: readonly string[], { cwd, userCache }: Pick<Host, 'cwd' | 'userCache'>): boolean {
  if (args.includes('--no-cache')) return false
  const named = given('--cache', args)
  const folder = named === undefined ? userCache && join(userCache, 'entries') : resolve(cwd, named)
  return folder !== null && existsSync(folder)
}

// Specs are shorter, most by far.
const START_OF_SPEC = 64 * 1024
const LEAVES_OUT = [/^intact:[ \t]*false\b/m, /^one-face:[ \t]*false\b/m]

/** Whether pictures will be looked at, as far as one look at a spec that is not read yet tells: a wrong guess takes time, and changes nothing else. */
export function looksAtPixels(args: readonly string[], { cwd }: Pick<Host, 'cwd'>): boolean {
  const text = readHead(resolve(cwd, given('--spec', args) ?? DEFAULT_SPEC), START_OF_SPEC)?.toString()
  return text === undefined || !LEAVES_OUT.every((line) => line.test(text))
}

/** What an option is given, in either way of writing it. */
function given(option: string, args: readonly string[]): string | undefined {
  const joined = args.find((arg) => arg.startsWith(`${option}=`))?.slice(option.length + 1)
  return joined ?? args.find((_, i) => args[i - 1] === option)
}
