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

interface Written {
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

// A run that ended before its kill is tried again, as often as this for each kill.
const TRIES = 4

/**
 * Kills a command (signal 9, which no program can answer) at random moments: anywhere in its run, and in turn after it
 * began to write to each folder. A run that ends before its kill tells how long such runs take now, and another is killed
 * in its place. Gives what the inspections found, and how many kills came before the command's end.
 */
export async function killAtRandom(options: KillOptions): Promise<{ findings: string[]; killed: number }> {
  const { victim, random, times, wholeMs, written, inspect } = options
  const aims: Aim[] = [
    { folder: null, withinMs: wholeMs },
    ...written.map(({ folder, forMs }) => ({ folder, withinMs: forMs })),
  ]
  const findings: string[] = []
  let killed = 0
  for (let tries = 1; killed < times && tries <= TRIES * times; tries++) {
    const aim = aims[killed % aims.length] as Aim
    const { signal, ms } = await killWithin(victim, aim, below(random, aim.withinMs))
    if (signal === 'SIGKILL') killed++
    else aim.withinMs = Math.min(aim.withinMs, ms)
    findings.push(...(await inspect()).map((finding) => `try ${tries}: ${finding}`))
  }
  return { findings, killed }
}

/** Which moments are meant: so long after the start, or after the first change in a folder, at most. */
interface Aim {
  readonly folder: string | null
  withinMs: number
}

/** Runs the command to its end; gives its exit code and how long it took. */
export async function runWhole(victim: Victim): Promise<{ code: number | null; ms: number }> {
  const start = performance.now()
  const { code } = await ended(victim, () => () => {})
  return { code, ms: performance.now() - start }
}

/** @returns also how long the command ran on from the moment that counts */
async function killWithin(
  victim: Victim,
  { folder }: Aim,
  afterMs: number,
): Promise<{ signal: NodeJS.Signals | null; ms: number }> {
  let start = performance.now()
  const { signal } = await ended(victim, (kill) => {
    let timer: NodeJS.Timeout | undefined
    const begin = () => {
      if (timer) return
      start = performance.now()
      timer = setTimeout(kill, afterMs)
    }
    const watcher = folder === null ? null : watch(folder, begin)
    if (!watcher) begin()
    return () => {
      clearTimeout(timer)
      watcher?.close()
    }
  })
  return { signal, ms: performance.now() - start }
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
