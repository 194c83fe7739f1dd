import { type Candidate, isAsBefore, keptStill, lookAt } from './candidate.ts'
import { type FolderNews, FolderWatch } from './folder-watch.ts'
import { Queue } from './queue.ts'

/** What became of a file: it is dealt with, as it is; or it is not whole yet. */
export type Taken = 'done' | 'not-whole'

export interface ArrivalsOptions {
  /** Absolute. */
  readonly folder: string
  /** How many files may be worked on at once. */
  readonly atOnce: number
  /** Whether a file was dealt with before, as it is. */
  readonly isKnown: (candidate: Candidate) => boolean
  /** Deals with a file that keeps still. Never rejects. */
  readonly take: (candidate: Candidate) => Promise<Taken>
  /** Told of a file that is not whole although it has kept still for long; once as long as it does not change. */
  readonly tellUnfinished: (candidate: Candidate) => void
  readonly tell: (news: FolderNews) => void
}

/** Times until a file that is not whole is tried again although it looks unchanged, in ms; then no more. @choice some copy programs write into a file of its final size, and keep its time; no source. */
const AGAIN_MS = [250, 500, 1000, 2000, 4000, 8000, 15_000, 30_000, 60_000, 120_000]

/** Time until a file that changes is looked at again, in ms. @choice as often as nobody notices; no source. */
const GROWING_MS = 50

/** After so many tries it is told that a file is not whole: 8 s. @choice longer than a slow transfer pauses; no source. */
const TOLD_AFTER = 5

/** How many files are waited for at once until they keep still; to wait costs nothing. @choice no source */
const WAITING = 64

/** Takes the pictures of a folder as they arrive, each when it keeps still, and again when it has changed. */
export class Arrivals {
  readonly #options: ArrivalsOptions
  readonly #watch: FolderWatch
  readonly #still: Queue<string>
  readonly #whole: Queue<string>
  /** Files that keep still. */
  readonly #ready = new Map<string, Candidate>()
  /** Files that were tried and not dealt with, and how often in vain. */
  readonly #tried = new Map<string, { candidate: Candidate; times: number }>()
  readonly #timers = new Map<string, NodeJS.Timeout>()
  readonly #news = new Set<string>()
  /** Files that are worked on: whether they have changed is looked at afterward. */
  readonly #taking = new Set<string>()
  #isClosed = false

  constructor(options: ArrivalsOptions) {
    this.#options = options
    const { folder, atOnce, tell } = options
    this.#still = new Queue(WAITING, (path) => this.#settle(path))
    this.#whole = new Queue(atOnce, (path) => this.#take(path))
    this.#watch = new FolderWatch({ folder, tell, offer: (path, isNews) => this.#offer(path, isNews) })
  }

  start(): Promise<void> {
    return this.#watch.start()
  }

  /** Looks through the folder now. */
  look(): Promise<void> {
    return this.#watch.walk()
  }

  /** How many files wait or are worked on. */
  get waiting(): number {
    return this.#still.length + this.#whole.length
  }

  /** Resolves when nothing is worked on any more. */
  async close(): Promise<void> {
    this.#isClosed = true
    for (const timer of this.#timers.values()) clearTimeout(timer)
    await this.#watch.close()
    await this.#still.stop()
    await this.#whole.stop()
  }

  #offer(path: string, isNews: boolean): void {
    if (this.#isClosed) return
    if (isNews) this.#news.add(path)
    this.#still.add(path, isNews)
  }

  async #settle(path: string): Promise<void> {
    const { folder, isKnown } = this.#options
    const candidate = await lookAt(path, folder)
    const tried = this.#tried.get(path)
    if (!candidate) return this.#drop(path)
    if (isKnown(candidate)) return this.#drop(path)
    // What was tried as it is has a timer of its own, or was tried often enough.
    const isSettled = this.#timers.has(path) || (tried?.times ?? 0) > AGAIN_MS.length
    if (tried && isAsBefore(tried.candidate, candidate) && isSettled) return
    const still = await keptStill(candidate, folder)
    if (this.#isClosed || this.#taking.has(path)) return
    if (!still) return this.#later(path, candidate, 0)
    this.#ready.set(path, still)
    this.#whole.add(path, this.#news.delete(path))
  }

  async #take(path: string): Promise<void> {
    const candidate = this.#ready.get(path)
    this.#ready.delete(path)
    if (!candidate || this.#isClosed) return
    // It may have been looked at twice while it was taken.
    if (this.#options.isKnown(candidate)) {
      this.#drop(path)
      return
    }
    this.#taking.add(path)
    const taken = await this.#options.take(candidate)
    this.#taking.delete(path)
    const now = await lookAt(path, this.#options.folder)
    if (!now) return this.#drop(path)
    if (!isAsBefore(candidate, now)) return this.#later(path, candidate, 0)
    if (taken === 'done') return this.#drop(path)
    const before = this.#tried.get(path)
    const times = before && isAsBefore(before.candidate, candidate) ? before.times + 1 : 1
    if (times === TOLD_AFTER) this.#options.tellUnfinished(candidate)
    this.#later(path, candidate, times)
  }

  /** Tries again in a while. @param times how often it was not whole, as it is */
  #later(path: string, candidate: Candidate, times: number): void {
    if (this.#isClosed) return
    this.#tried.set(path, { candidate, times })
    clearTimeout(this.#timers.get(path))
    const wait = times === 0 ? GROWING_MS : AGAIN_MS[times - 1]
    if (wait === undefined) return
    const again = () => {
      this.#timers.delete(path)
      this.#offer(path, false)
    }
    this.#timers.set(path, setTimeout(again, wait))
  }

  #drop(path: string): void {
    this.#tried.delete(path)
    this.#news.delete(path)
    clearTimeout(this.#timers.get(path))
    this.#timers.delete(path)
  }
}
