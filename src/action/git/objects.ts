import type { ChildProcess } from 'node:child_process'
import type { Readable } from 'node:stream'

/** Starts git with its input and its output piped. */
type Start = (args: readonly string[]) => ChildProcess

/** A git that is asked, and what it answers. */
interface Asked {
  readonly git: ChildProcess
  readonly answers: Portions
}

// It is held in memory. No spec and no roster takes as much.
const MOST_BYTES = 64 * 1024 * 1024

/** Objects of a repository, of which one git is asked in turn (git-cat-file(1), option --batch). */
export class Objects {
  readonly #start: Start
  #asked: Asked | null = null
  #last: Promise<unknown> = Promise.resolve()

  constructor(start: Start) {
    this.#start = start
  }

  /**
   * The content of an object; null when git lacks it, can't read it, or it takes more than 64 MiB.
   * @param name its hash, or what git makes one of, without line breaks
   */
  read(name: string): Promise<Buffer | null> {
    const answer = this.#last.then(() => this.#ask(name))
    this.#last = answer
    return answer
  }

  /** Ends git, which the next question starts again. */
  close(): void {
    this.#asked?.git.kill()
    this.#asked = null
  }

  async #ask(name: string): Promise<Buffer | null> {
    this.#asked ??= this.#started()
    const { git, answers } = this.#asked
    git.stdin?.write(`${name}\n`)
    const head = await answers.line()
    if (head?.endsWith(' missing')) return null
    const size = Number(/^[0-9a-f]+ [a-z]+ (\d+)$/.exec(head ?? '')?.[1] ?? Number.NaN)
    // Each content ends with a line break of git's.
    const content = size <= MOST_BYTES ? await answers.bytes(size + 1) : null
    // Where the next answer would begin is not known.
    if (content === null) this.close()
    return content?.subarray(0, -1) ?? null
  }

  #started(): Asked {
    const git = this.#start(['cat-file', '--batch'])
    // One that can't be started, or ends early, answers nothing.
    for (const one of [git, git.stdin]) one?.on('error', () => {})
    return { git, answers: new Portions(git.stdout) }
  }
}

/** What a stream brings, in the portions that are asked for: null where it ends before. */
class Portions {
  readonly #chunks: AsyncIterator<Buffer> | undefined
  #unread: Buffer = Buffer.alloc(0)

  constructor(stream: Readable | null) {
    this.#chunks = stream?.[Symbol.asyncIterator]()
  }

  /** Up to the next line break, without it. */
  async line(): Promise<string | null> {
    let end = this.#unread.indexOf('\n')
    while (end < 0) {
      const more = await this.#next()
      if (more === null) return null
      this.#unread = Buffer.concat([this.#unread, more])
      end = this.#unread.indexOf('\n')
    }
    const line = this.#unread.toString('latin1', 0, end)
    this.#unread = this.#unread.subarray(end + 1)
    return line
  }

  async bytes(count: number): Promise<Buffer | null> {
    const parts = [this.#unread]
    for (let left = count - this.#unread.length; left > 0; ) {
      const more = await this.#next()
      if (more === null) return null
      parts.push(more)
      left -= more.length
    }
    const all = Buffer.concat(parts)
    this.#unread = all.subarray(count)
    return all.subarray(0, count)
  }

  async #next(): Promise<Buffer | null> {
    const next = await this.#chunks?.next().catch(() => null)
    return next && !next.done ? next.value : null
  }
}
