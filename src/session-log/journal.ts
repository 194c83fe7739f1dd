import { type FileHandle, open, readFile, stat } from 'node:fs/promises'
import { causeOf } from '../files/cause.ts'
import { replaceWhole } from '../files/replace-whole.ts'
import { type Entry, isEntry } from './entry.ts'

/** What a log held. */
export interface ReadJournal {
  readonly entries: readonly Entry[]
  /** Lines that were no entries: the last one after a kill; others where something else wrote into the file. */
  readonly unread: number
}

/** Time until what could not be written is tried again, in ms. @choice soon enough for who has made room; no source. */
const AGAIN_MS = 2000

/** Only the user reads what is kept of people. */
const MODE = 0o600

/**
 * A session's log: a line of JSON for each entry, only ever added to, on the disk before it counts as written. What a
 * kill or a full disk cut short in the middle of a line is left out when it is read.
 */
export class Journal {
  readonly path: string
  readonly #tell: (trouble: string | null) => void
  #handle: FileHandle | null = null
  /** Bytes of whole lines. */
  #length = 0
  readonly #all: Entry[]
  /** How many of all entries are on the disk. */
  #written: number
  #trouble: string | null = null
  #writing: Promise<void> | null = null
  #again: NodeJS.Timeout | null = null

  private constructor(path: string, entries: Entry[], tell: (trouble: string | null) => void) {
    this.path = path
    this.#all = [...entries]
    this.#written = entries.length
    this.#tell = tell
  }

  /**
   * Opens a log, which is made when it is not there.
   * @param path absolute, in a folder that is there
   * @param tell is given why nothing can be written (the system's code, such as ENOSPC), and null when it goes on
   * @throws the system's error when what is there can't be read
   */
  static async open(
    path: string,
    tell: (trouble: string | null) => void,
  ): Promise<{ journal: Journal; read: ReadJournal }> {
    const bytes = await bytesOf(path)
    const length = bytes.lastIndexOf('\n') + 1
    const lines = bytes.toString('utf8', 0, length).split('\n').slice(0, -1)
    const entries = lines.map(parsed).filter((entry) => entry !== null)
    const journal = new Journal(path, entries, tell)
    journal.#length = length
    const cut = length < bytes.length ? 1 : 0
    return { journal, read: { entries, unread: lines.length - entries.length + cut } }
  }

  /** Adds an entry. It is written in its turn, and tried again every few seconds as long as it can't be. */
  add(entry: Entry): void {
    this.#all.push(entry)
    this.retry()
  }

  /** Tries again to write what could not be written. */
  retry(): void {
    this.#writing ??= this.#write().finally(() => {
      this.#writing = null
    })
  }

  /** Resolves when all entries are on the disk, or can't be brought there just now. */
  async settled(): Promise<void> {
    while (this.#writing) await this.#writing
  }

  /** Why entries wait to be written, by the system's code; null when none does. */
  get trouble(): string | null {
    return this.#trouble
  }

  /** Puts these entries in place of all that there are; the file is replaced whole. */
  async replace(entries: readonly Entry[]): Promise<void> {
    await this.settled()
    await this.#close()
    const text = entries.map(lineOf).join('')
    await replaceWhole(this.path, text, { mode: MODE, flush: true })
    this.#all.splice(0, this.#all.length, ...entries)
    this.#written = entries.length
    this.#length = Buffer.byteLength(text)
  }

  async close(): Promise<void> {
    await this.settled()
    if (this.#again) clearTimeout(this.#again)
    await this.#close()
  }

  async #write(): Promise<void> {
    while (this.#written < this.#all.length) {
      const waiting = this.#all.slice(this.#written)
      try {
        await this.#append(waiting)
        this.#written += waiting.length
        if (this.#trouble !== null) this.#say(null)
      } catch (error) {
        await this.#close().catch(() => {})
        this.#say(causeOf(error))
        if (this.#again) clearTimeout(this.#again)
        this.#again = setTimeout(() => this.retry(), AGAIN_MS).unref()
        return
      }
    }
  }

  async #append(entries: readonly Entry[]): Promise<void> {
    if (!(await this.#isInPlace())) {
      // The folder was taken away, with the log in it, and another one stands there.
      const before = this.#all.slice(0, this.#written).map(lineOf).join('')
      await this.#close()
      await replaceWhole(this.path, before, { mode: MODE, flush: true })
      this.#length = Buffer.byteLength(before)
    }
    this.#handle ??= await open(this.path, 'r+')
    const bytes = Buffer.from(entries.map(lineOf).join(''))
    // What a full disk cut short must not stand before the next line.
    await this.#handle.truncate(this.#length)
    for (let done = 0; done < bytes.length; ) {
      const { bytesWritten } = await this.#handle.write(bytes, done, bytes.length - done, this.#length + done)
      done += bytesWritten
    }
    await this.#handle.datasync()
    this.#length += bytes.length
  }

  /** Whether what has the log's name is the file that was written to. */
  async #isInPlace(): Promise<boolean> {
    try {
      const there = await stat(this.path)
      if (there.size < this.#length) return false
      return !this.#handle || there.ino === (await this.#handle.stat()).ino
    } catch {
      return false
    }
  }

  async #close(): Promise<void> {
    const handle = this.#handle
    this.#handle = null
    await handle?.close()
  }

  #say(trouble: string | null): void {
    if (trouble === this.#trouble) return
    this.#trouble = trouble
    this.#tell(trouble)
  }
}

/** Nothing when the log is not there yet. */
async function bytesOf(path: string): Promise<Buffer> {
  try {
    return await readFile(path)
  } catch (error) {
    if (causeOf(error) === 'ENOENT') return Buffer.alloc(0)
    throw error
  }
}

function lineOf(entry: Entry): string {
  return `${JSON.stringify(entry)}\n`
}

function parsed(line: string): Entry | null {
  try {
    const value: unknown = JSON.parse(line)
    return isEntry(value) ? value : null
  } catch {
    return null
  }
}
