import { extname } from 'node:path'
import { Piscina } from 'piscina'
import type { EntriesPlace } from '../cache/entries.ts'
import type { Source } from '../measure/file/read-file.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { unmeasured } from '../measure/schema/unmeasured.ts'
import { compileAsUsual, compileWhatRuns } from './compiling.ts'
import type { Postponed, Task, WorkerData } from './measuring-worker.ts'

/** What one file may take; more makes a failed row of it. */
export interface FileLimits {
  readonly seconds: number
  /** JavaScript memory of one worker in MiB. Pixels lie outside it: the limit on pixels bounds them. */
  readonly memoryMiB: number
}

/**
 * The largest picture that is read (160 million pixels) takes about 5 s here, so a minute is a slow machine or a trap;
 * an ordinary portrait takes 100 MiB at most.
 */
const FILE_LIMITS: FileLimits = { seconds: 60, memoryMiB: 1024 }

interface WorkersOptions {
  readonly limits?: FileLimits
  /** Whether the first is started before there is anything to measure, and loads what looks at pixels meanwhile. */
  readonly loadsAhead?: boolean
}

/** How some files are measured. */
export interface Measuring {
  readonly signal: AbortSignal
  /** Memory that decoding one of them may take, in bytes: what takes more is postponed. */
  readonly share?: number
  /** Where measurements are kept; null to keep none. */
  readonly entries?: EntriesPlace | null
}

/** Worker threads that measure, one file each at a time. */
export class Workers {
  readonly #pool: Piscina
  readonly #limits: FileLimits
  /** Aborted by what ended a worker that had nothing to measure yet: the next would end the same way. */
  readonly #fallen = new AbortController()

  /**
   * Starts one; the others when there is more than it can take.
   * @param threads how many at most
   */
  constructor(threads: number, { limits = FILE_LIMITS, loadsAhead = false }: WorkersOptions = {}) {
    this.#limits = limits
    compileWhatRuns()
    // The source runs as it is where Node takes types out, else as it was built.
    const worker = new URL(`./measuring-worker${extname(import.meta.url)}`, import.meta.url)
    const workerData: WorkerData = { loadsAhead }
    this.#pool = new Piscina({
      filename: worker.href,
      workerData,
      minThreads: 1,
      maxThreads: threads,
      idleTimeout: Infinity,
      resourceLimits: { maxOldGenerationSizeMb: limits.memoryMiB },
    })
    this.#pool.on('error', (error) => this.#fallen.abort(error))
    // Those that are started later have something to measure. The pool hands them what the object says then.
    workerData.loadsAhead = false
  }

  /**
   * Measures some files in one worker; the results stand in the order of the files. A worker that takes too long or too
   * much memory is ended, and the file that it was at is told as not measured.
   * @throws the signal's reason when it is aborted; Error when the face models can't be loaded, or a worker can't be started
   */
  async measure(
    sources: readonly Source[],
    groups: readonly MeasurementGroup[],
    measuring: Measuring,
  ): Promise<(Measurements | Postponed)[]> {
    const { signal, share = Infinity, entries = null } = measuring
    const { seconds, memoryMiB } = this.#limits
    const timeout = AbortSignal.timeout(1000 * seconds)
    const task: Task = { sources, groups, share, entries }
    try {
      return await this.#pool.run(task, { signal: AbortSignal.any([signal, timeout, this.#fallen.signal]) })
    } catch (error) {
      signal.throwIfAborted()
      this.#fallen.signal.throwIfAborted()
      const tooLong = timeout.aborted
      if (!tooLong && codeOf(error) !== 'ERR_WORKER_OUT_OF_MEMORY') throw error
      if (sources.length > 1) return this.#oneByOne(sources, groups, measuring)
      const limit = tooLong ? `took longer than ${seconds} s` : `needed more than ${memoryMiB} MiB of memory`
      return sources.map(({ file }) => unmeasured(file, limit))
    }
  }

  /** The limits are those of one file: of several, only measuring each alone tells which went beyond. */
  async #oneByOne(
    sources: readonly Source[],
    groups: readonly MeasurementGroup[],
    measuring: Measuring,
  ): Promise<(Measurements | Postponed)[]> {
    const measured: (Measurements | Postponed)[] = []
    for (const source of sources) measured.push(...(await this.measure([source], groups, measuring)))
    return measured
  }

  async close(): Promise<void> {
    await this.#pool.destroy()
    compileAsUsual()
  }
}

function codeOf(error: unknown): unknown {
  return error instanceof Error && 'code' in error ? error.code : undefined
}
