import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import process from 'node:process'
import { BaseSequencer, createVitest, type TestSpecification, type Vitest } from 'vitest/node'

const LOOK_MS = 1000
/** No quick test takes so long: what does runs in circles. */
const HUNG_SECONDS = 60

export type Result = 'failed' | 'passed' | 'hung'

/** Test files run again and again by one instance of Vitest, so that only what changed is loaded anew. */
export class WarmTests {
  readonly #root: string
  #vitest: Promise<Vitest> | null = null
  /** Changed for the run before, and put back since. */
  #before: string | null = null

  /** @param root folder of the project, or of a copy of it */
  constructor(root: string) {
    this.#root = root
  }

  /** Which of the test files fail, each run to its end. */
  async failing(tests: readonly string[]): Promise<string[]> {
    const vitest = await this.#started(0)
    const { testModules } = await vitest.runTestSpecifications(await this.#found(vitest, tests), false)
    const failed = testModules.filter((module) => !module.ok()).map(({ moduleId }) => moduleId)
    await this.close()
    return tests.filter((test) => failed.includes(resolve(this.#root, test)))
  }

  /**
   * Runs test files, in their order, until one fails.
   * @param changed the file that changed since the last run, in which the one before was put back
   */
  async run(changed: string, tests: readonly string[]): Promise<Result> {
    const vitest = await this.#started(1)
    for (const path of [this.#before, changed])
      if (path !== null) vitest.invalidateFile(resolve(this.#root, path))
    this.#before = changed
    const watch = killsHung()
    try {
      vitest.state.clearErrors()
      const found = await this.#found(vitest, tests)
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

  async #found(vitest: Vitest, tests: readonly string[]): Promise<TestSpecification[]> {
    const order = tests.map((test) => resolve(this.#root, test))
    const found = await vitest.globTestSpecifications(order)
    return found
      .filter(({ moduleId }) => order.includes(moduleId))
      .sort((one, other) => order.indexOf(one.moduleId) - order.indexOf(other.moduleId))
  }

  /** @param bail so many failures end a run; 0 for none */
  #started(bail: number): Promise<Vitest> {
    this.#vitest ??= createVitest('test', {
      root: this.#root,
      watch: false,
      reporters: [{}],
      bail,
      maxWorkers: 1,
      fileParallelism: false,
      cache: false,
      sequence: { sequencer: AsGiven },
    })
    return this.#vitest
  }
}

class AsGiven extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return files
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
