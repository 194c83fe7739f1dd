import { extname } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { EntriesPlace } from '../cache/entries.ts'
import type { Source } from '../measure/file/read-file.ts'
import type { MeasurementGroup } from '../measure/schema/measurements.ts'

/** Where another thread looks files up. */
export interface Reading {
  readonly entries: EntriesPlace
  /** The folder of the index. */
  readonly index: string
}

/** Some files whose entries are to be opened. */
export interface ToOpen {
  readonly sources: readonly Pick<Source, 'path' | 'isFrame'>[]
  readonly groups: readonly MeasurementGroup[]
}

/** The texts of their entries, one after the other; 0 bytes of a file that is not known. */
export interface Opened {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly lengths: readonly number[]
}

/** Another thread that stats files and opens their entries. What it can't do it leaves to this one. */
export class EntryReader {
  readonly #worker: Worker
  /** Of the portions that were asked for and not answered yet, in their order. */
  readonly #waiting: ((opened: Opened | null) => void)[] = []
  #isEnded = false

  constructor(reading: Reading) {
    // The source runs as it is where Node takes types out, else as it was built.
    const file = new URL(`./reading-worker${extname(import.meta.url)}`, import.meta.url)
    this.#worker = new Worker(file, { workerData: reading })
    this.#worker.on('message', (opened: Opened) => this.#waiting.shift()?.(opened))
    this.#worker.on('error', () => this.#giveUp())
    this.#worker.on('exit', () => this.#giveUp())
  }

  /** The text of each file's entry, UTF-8; null for what is not known, or could not be opened. */
  async texts(sources: readonly Source[], groups: readonly MeasurementGroup[]): Promise<(Buffer | null)[]> {
    // What else is known of a file takes long to hand over.
    const task: ToOpen = { sources: sources.map(({ path, isFrame = false }) => ({ path, isFrame })), groups }
    const opened = this.#isEnded ? null : await this.#answerTo(task)
    if (!opened) return sources.map(() => null)
    let end = 0
    return opened.lengths.map((length) => {
      end += length
      return length === 0 ? null : Buffer.from(opened.bytes.buffer, end - length, length)
    })
  }

  close(): void {
    this.#giveUp()
    void this.#worker.terminate()
  }

  #answerTo(task: ToOpen): Promise<Opened | null> {
    this.#worker.postMessage(task)
    return new Promise((resolve) => this.#waiting.push(resolve))
  }

  #giveUp(): void {
    this.#isEnded = true
    for (const resolve of this.#waiting.splice(0)) resolve(null)
  }
}
