import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import process from 'node:process'
import { createVitest, type Vitest } from 'vitest/node'

const LOOK_MS = 1000
/** No quick test takes so long: what does runs in circles. */
const HUNG_SECONDS = 60

export type Result = 'failed' | 'passed' | 'hung'

/** Test files run again and again by one instance of Vitest, so that only what changed is loaded anew. */
export class WarmTests {
  readonly #root: string
  #vitest: Promise<Vitest> | null = null

  /** @param root folder of the project, or of a copy of it */
  constructor(root: string) {
    this.#root = root
  }

  /** Runs test files until one fails. @param changed the file that changed since the last run, if one did */
  async run(changed: string | null, tests: readonly string[]): Promise<Result> {
    const vitest = await this.#started()
    if (changed !== null) vitest.invalidateFile(resolve(this.#root, changed))
    const wanted = new Set(tests.map((test) => resolve(this.#root, test)))
    const found = (await vitest.globTestSpecifications([...wanted])).filter(({ moduleId }) =>
      wanted.has(moduleId),
    )
    const order = [...wanted]
    found.sort((one, other) => order.indexOf(one.moduleId) - order.indexOf(other.moduleId))
    const watch = killsHung()
    try {
      vitest.state.clearErrors()
      const { testModules, unhandledErrors } = await vitest.runTestSpecifications(found, false)
      const passed = testModules.length > 0 && testModules.every((module) => module.ok())
      if (watch.killed()) await this.close()
      if (watch.killed()) return 'hung'
      return passed && unhandledErrors.length === 0 ? 'passed' : 'failed'
    } finally {
      watch.end()
    }
  }

  async close(): Promise<void> {
    const vitest = await this.#vitest
    this.#vitest = null
    await vitest?.close()
  }

  #started(): Promise<Vitest> {
    this.#vitest ??= createVitest('test', {
      root: this.#root,
      watch: false,
      reporters: [{}],
      bail: 1,
      maxWorkers: 1,
      fileParallelism: false,
      cache: false,
    })
    return this.#vitest
  }
}

/** Ends what this process has started when it takes too much of the processor's time. */
function killsHung() {
  const before = new Map(children().map((pid) => [pid, seconds(pid)]))
  let killed = false
  const timer = setInterval(() => {
    for (const pid of children())
      if (seconds(pid) - (before.get(pid) ?? 0) > HUNG_SECONDS) {
        killed = true
        process.kill(pid, 'SIGKILL')
      }
  }, LOOK_MS)
  return { killed: () => killed, end: () => clearInterval(timer) }
}

function children(): number[] {
  const list = readFileSync(`/proc/self/task/${process.pid}/children`, 'utf8')
  return list.split(' ').filter(Boolean).map(Number)
}

function seconds(pid: number): number {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, 'latin1')
      .replace(/^.*\) /s, '')
      .split(' ')
    return (Number(fields[11]) + Number(fields[12])) / 100
  } catch {
    return 0
  }
}
