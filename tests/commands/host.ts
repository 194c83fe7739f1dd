import type { Host } from '../../src/checking/host.ts'
import { THIS_PROCESS } from '../../src/files/this-process.ts'

export interface Recorded {
  readonly host: Host
  readonly stdout: () => string
  readonly stderr: () => string
  readonly stop: () => void
}

/** A host that keeps what a command writes, as if piped, unless `terminal` says otherwise. */
export function recordingHost(
  cwd: string,
  terminal: {
    columns?: number
    isTTY?: boolean
    env?: Host['env']
    userCache?: string
  } = {},
): Recorded {
  const { columns, isTTY = false, env = {}, userCache = null } = terminal
  const out: string[] = []
  const err: string[] = []
  const controller = new AbortController()
  const host: Host = {
    cwd,
    stdout: { write: (text) => out.push(text), isTTY, columns },
    stderr: { write: (text) => err.push(text), isTTY, columns },
    env,
    workers: 0,
    userCache,
    processes: THIS_PROCESS,
    signal: controller.signal,
  }
  return { host, stdout: () => out.join(''), stderr: () => err.join(''), stop: () => controller.abort() }
}
