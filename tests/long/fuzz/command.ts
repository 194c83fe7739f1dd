import { spawn } from 'node:child_process'
import { join } from 'node:path'

export interface Ended {
  readonly code: number | null
  readonly signal: NodeJS.Signals | null
  readonly stdout: string
  readonly stderr: string
}

export interface CommandOptions {
  readonly cwd: string
  /** What runs the command: a shell's words before it, such as `setpriv`. */
  readonly through?: readonly string[]
  /** An open file for standard output, in place of a pipe that is read to its end. */
  readonly stdout?: number
  /** Closes standard output, as a reader that has seen enough does, when the command has written to it. */
  readonly closesEarly?: boolean
}

/** The environment of a run in a folder: the user's own cache folder is one of the test. */
export function environment(cwd: string): NodeJS.ProcessEnv {
  return { ...process.env, XDG_CACHE_HOME: join(cwd, '.cache-of-the-test') }
}

/** Where a run in a folder keeps what the user keeps. */
export function userCacheOf(cwd: string): string {
  return join(cwd, '.cache-of-the-test', 'portrait-gate')
}

// Nothing here takes longer than seconds, on a machine with nothing else to do; what takes this long has hung.
const HUNG_MS = 900_000

/**
 * Runs the command to its end, with a cache of its own.
 * @param release folder of the packed form, which is what users run and starts faster than the build
 */
export function runCommand(
  release: string,
  args: readonly string[],
  options: CommandOptions,
): Promise<Ended> {
  const { cwd, through = [], stdout = 'pipe', closesEarly = false } = options
  const [program = '', ...words] = [
    ...through,
    process.execPath,
    join(release, 'bundle', 'start.cjs'),
    ...args,
  ]
  return new Promise((resolve, reject) => {
    const child = spawn(program, words, {
      cwd,
      env: environment(cwd),
      stdio: ['ignore', stdout, 'pipe'],
      timeout: HUNG_MS,
      killSignal: 'SIGKILL',
    })
    const out: Buffer[] = []
    const err: Buffer[] = []
    child.stdout?.on('data', (data: Buffer) => {
      out.push(data)
      if (closesEarly) child.stdout?.destroy()
    })
    child.stderr?.on('data', (data: Buffer) => err.push(data))
    child.on('error', reject)
    child.on('close', (code, signal) =>
      resolve({
        ...{ code, signal },
        stdout: Buffer.concat(out).toString('utf8'),
        stderr: Buffer.concat(err).toString('utf8'),
      }),
    )
  })
}
