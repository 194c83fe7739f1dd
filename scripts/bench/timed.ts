import { spawn } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import process from 'node:process'

export interface Run {
  /** Wall time in seconds, start-up included. */
  readonly seconds: number
  /** Processor time of all threads in seconds, as Linux tells it, to some hundredths; null where it can't be told. */
  readonly cpuSeconds: number | null
  /** Largest resident memory of the process in MiB, as Linux tells it; null where it can't be told. */
  readonly peakMiB: number | null
  readonly stdout: string
}

// Linux tells a running process's largest memory and its processor time only while it runs.
const LOOK_EVERY_MS = 20
// The unit in which Linux tells processor time, USER_HZ: proc(5), from memory.
const TICKS_A_SECOND = 100
// Fields of /proc/PID/stat after the name in parentheses: utime and stime, 14 and 15 of all (proc(5), from memory).
const [USER_TICKS, SYSTEM_TICKS] = [11, 12]

/**
 * @param env what the command is told beside this process's own environment
 * @throws Error when the command can't be started or ends with a code above `worst`
 */
export async function timed(
  command: string,
  args: readonly string[],
  worst = 0,
  env: Readonly<Record<string, string>> = {},
): Promise<Run> {
  const start = performance.now()
  const child = spawn(command, args, {
    stdio: ['ignore', 'pipe', 'inherit'],
    env: { ...process.env, ...env },
  })
  const output: Buffer[] = []
  child.stdout.on('data', (data: Buffer) => output.push(data))
  let peakMiB: number | null = null
  let cpuSeconds: number | null = null
  const told = (file: string) => readFile(`/proc/${child.pid}/${file}`, 'utf8').catch(() => '')
  const looking = setInterval(async () => {
    const [, kiB] = /VmHWM:\s+([0-9]+) kB/.exec(await told('status')) ?? []
    if (kiB !== undefined) peakMiB = Number(kiB) / 1024
    const [, after] = /\) (.+)/.exec(await told('stat')) ?? []
    const fields = after?.split(' ') ?? []
    const ticks = Number(fields[USER_TICKS]) + Number(fields[SYSTEM_TICKS])
    if (ticks > 0) cpuSeconds = ticks / TICKS_A_SECOND
  }, LOOK_EVERY_MS)
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('error', reject)
    child.once('close', resolve)
  }).finally(() => clearInterval(looking))
  const seconds = (performance.now() - start) / 1000
  if (code === null || code > worst) throw new Error(`${command} ${args.join(' ')} ended with code ${code}.`)
  return { seconds, cpuSeconds, peakMiB, stdout: Buffer.concat(output).toString('utf8') }
}

/** The run of middle length, and all of them by their rounds. */
export interface Turns extends Run {
  readonly rounds: readonly Run[]
}

/** Each in turn, so that what else the machine does hits all alike. */
export async function inTurns<Name extends string>(
  rounds: number,
  runs: Record<Name, () => Promise<Run>>,
): Promise<Record<Name, Turns>> {
  const names = Object.keys(runs) as Name[]
  const all = new Map<Name, Run[]>(names.map((name) => [name, []]))
  for (let round = 0; round < rounds; round++)
    for (const name of names) all.get(name)?.push(await runs[name]())
  const turns = ([name, runs]: [Name, Run[]]) => [
    name,
    { ...middle(runs, ({ seconds }) => seconds), rounds: runs },
  ]
  return Object.fromEntries([...all].map(turns))
}

/** The value that as many lie below as above; of an even number the upper of the middle two. */
export function middle<Value>(values: readonly Value[], of: (value: Value) => number): Value {
  return values.toSorted((a, b) => of(a) - of(b))[Math.floor(values.length / 2)] as Value
}
