import { spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import type { Message, Range } from './batch.ts'
import { watchOver } from './watch.ts'

/** What a campaign found. */
export interface Summary {
  readonly files: number
  /** How many files met which fate: "whole", or the kind of their fault. */
  readonly fates: Readonly<Record<string, number>>
  /** How many passed every rule of the strict spec. */
  readonly passed: number
  readonly slowestMs: number
  readonly largestMiB: number
  /** One sentence each, with the number of the file. */
  readonly findings: readonly string[]
}

export interface CampaignOptions {
  readonly files: number
  readonly seed: number
  readonly processes: number
  /** Starts a process that examines a range and tells {@link Message} lines on its standard output. */
  readonly start: (range: Range, process: number) => readonly [program: string, args: readonly string[]]
  readonly progress: (done: number) => void
  /** Seconds of the processor after which a file has hung. */
  readonly fileSeconds?: number
}

const FILE_SECONDS = 10
// What reads all whole files of a batch at once takes longer than a file, and does most of it in another process.
const READING_SECONDS = 180
const BATCH = 250

/** Examines files in processes of their own, so that one that crashes or hangs is found, told and passed over. */
export async function runCampaign(options: CampaignOptions): Promise<Summary> {
  const tally = new Tally()
  let next = 0
  const work = async (process: number) => {
    while (next < options.files) {
      const from = next
      const to = Math.min(options.files, from + BATCH)
      next = to
      for (let start = from; start < to; ) {
        const lost = await runProcess(
          options.start({ seed: options.seed, from: start, to }, process),
          tally,
          () => options.progress(tally.files),
          options.fileSeconds ?? FILE_SECONDS,
        )
        start = lost === null ? to : lost + 1
      }
    }
  }
  await Promise.all(Array.from({ length: options.processes }, (_, process) => work(process)))
  return tally.summary()
}

/** The number of the file at which the process crashed or hung; null when it came to its end. */
function runProcess(
  [program, args]: readonly [string, readonly string[]],
  tally: Tally,
  progress: () => void,
  fileSeconds: number,
): Promise<number | null> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { stdio: ['ignore', 'pipe', 'pipe'] })
    let current: number | null = null
    let ended = false
    let words = ''
    const watch = watchOver(child, (how) => {
      words = how
    })
    watch.allow(READING_SECONDS)
    child.stderr.on('data', (data) => {
      words = `${words}${data}`.slice(-500)
    })
    createInterface(child.stdout).on('line', (line) => {
      const message = JSON.parse(line) as Message
      tally.add(message)
      if (message.kind === 'start') current = message.number
      if (message.kind === 'reading') current = null
      ended ||= message.kind === 'end'
      watch.allow(message.kind === 'start' ? fileSeconds : READING_SECONDS)
      progress()
    })
    child.on('error', reject)
    child.on('close', (code, signal) => {
      watch.end()
      if (ended) return resolve(null)
      const how = `the process ended (${signal ?? code}): ${words.trim()}`
      if (current === null) return reject(new Error(how))
      tally.add({ kind: 'finding', number: current, how: 'crash or hang', finding: how })
      resolve(current)
    })
  })
}

class Tally {
  files = 0
  readonly #fates = new Map<string, number>()
  readonly #findings: string[] = []
  #passed = 0
  #slowest = 0
  #largest = 0

  add(message: Message): void {
    if (message.kind === 'done') {
      this.files++
      this.#fates.set(message.fate, (this.#fates.get(message.fate) ?? 0) + 1)
      if (message.passes) this.#passed++
      this.#slowest = Math.max(this.#slowest, message.ms)
    }
    if (message.kind === 'end') this.#largest = Math.max(this.#largest, message.largestMiB)
    if (message.kind === 'finding')
      this.#findings.push(`file ${message.number} (${message.how}): ${message.finding}`)
  }

  summary(): Summary {
    return {
      files: this.files,
      fates: Object.fromEntries([...this.#fates].sort(([, one], [, other]) => other - one)),
      passed: this.#passed,
      slowestMs: this.#slowest,
      largestMiB: Math.round(this.#largest),
      findings: this.#findings,
    }
  }
}
