import { spawn } from 'node:child_process'
import { watch } from 'node:fs'
import { below, type Random } from './chance.ts'

/** A command that is killed over and over. */
export interface Victim {
  readonly program: string
  readonly args: readonly string[]
  readonly cwd: string
  readonly env?: NodeJS.ProcessEnv
}

export interface Written {
  readonly folder: string
  /** How long the writing goes on after the first sign of it, about, in ms. */
  readonly forMs: number
}

export interface KillOptions {
  readonly victim: Victim
  readonly times: number
  readonly random: Random
  /** How long the command takes when it is left alone, in ms. */
  readonly wholeMs: number
  /** Where files come and go while the command writes; kills take them in turn. */
  readonly written: readonly Written[]
  /** Looks at what a kill left and tells what is wrong with it. */
  readonly inspect: () => Promise<readonly string[]>
}

/**
 * Kills a command (signal 9, which no program can answer) at random moments: anywhere in its run, and in turn after it
 * began to write to each folder. Gives what the inspections found, and how many kills came before the command's end.
 */
export async function killAtRandom(options: KillOptions): Promise<{ findings: string[]; killed: number }> {
  const findings: string[] = []
  let killed = 0
  for (let n = 0; n < options.times; n++) {
    const writing = options.written[(n % (options.written.length + 1)) - 1]
    const died = await (writing ? killWhileWriting(options, writing) : killAnywhere(options))
    if (died) killed++
    findings.push(...(await options.inspect()).map((finding) => `kill ${n + 1}: ${finding}`))
  }
  return { findings, killed }
}

/** Runs the command to its end; gives its exit code and how long it took. */
export async function runWhole(victim: Victim): Promise<{ code: number | null; ms: number }> {
  const start = performance.now()
  const { code } = await ended(victim, () => () => {})
  return { code, ms: performance.now() - start }
}

async function killAnywhere({ victim, random, wholeMs }: KillOptions): Promise<boolean> {
  const { signal } = await ended(victim, (kill) => {
    const timer = setTimeout(kill, below(random, wholeMs))
    return () => clearTimeout(timer)
  })
  return signal === 'SIGKILL'
}

async function killWhileWriting(
  { victim, random }: KillOptions,
  { folder, forMs }: Written,
): Promise<boolean> {
  const { signal } = await ended(victim, (kill) => {
    let timer: NodeJS.Timeout | undefined
    const watcher = watch(folder, () => {
      timer ??= setTimeout(kill, below(random, forMs))
    })
    return () => {
      clearTimeout(timer)
      watcher.close()
    }
  })
  return signal === 'SIGKILL'
}

/** Starts the command, arms the kill, and waits for the end; what the arming gives back is called then. */
function ended(
  { program, args, cwd, env = process.env }: Victim,
  arm: (kill: () => void) => () => void,
): Promise<{ code: number | null; signal: NodeJS.Signals | null }> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { cwd, env, stdio: 'ignore' })
    const disarm = arm(() => child.kill('SIGKILL'))
    child.on('error', reject)
    child.on('close', (code, signal) => {
      disarm()
      resolve({ code, signal })
    })
  })
}
