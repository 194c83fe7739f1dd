import { spawn } from 'node:child_process'
import { readFile } from 'node:fs/promises'

export interface Run {
  /** Wall time in seconds, start-up included. */
  readonly seconds: number
  /** Largest resident memory of the process in MiB, as Linux tells it; null where it can't be told. */
  readonly peakMiB: number | null
  readonly stdout: string
}

// Linux tells a running process's largest memory only while it runs.
const LOOK_EVERY_MS = 20

/** @throws Error when the command can't be started or ends with a code above `worst` */
export async function timed(command: string, args: readonly string[], worst = 0): Promise<Run> {
  const start = performance.now()
  const child = spawn(command, args, { stdio: ['ignore', 'pipe', 'inherit'] })
  const output: Buffer[] = []
  child.stdout.on('data', (data: Buffer) => output.push(data))
  let peakMiB: number | null = null
  const looking = setInterval(async () => {
    const status = await readFile(`/proc/${child.pid}/status`, 'utf8').catch(() => '')
    const [, kiB] = /VmHWM:\s+([0-9]+) kB/.exec(status) ?? []
    if (kiB !== undefined) peakMiB = Number(kiB) / 1024
  }, LOOK_EVERY_MS)
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('error', reject)
    child.once('close', resolve)
  }).finally(() => clearInterval(looking))
  const seconds = (performance.now() - start) / 1000
  if (code === null || code > worst) throw new Error(`${command} ${args.join(' ')} ended with code ${code}.`)
  return { seconds, peakMiB, stdout: Buffer.concat(output).toString('utf8') }
}

/** The run of middle length. */
export function middle(runs: readonly Run[]): Run {
  const sorted = [...runs].sort((a, b) => a.seconds - b.seconds)
  return sorted[Math.floor(sorted.length / 2)] as Run
}
