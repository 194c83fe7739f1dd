import { readdir, stat } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { type FSWatcher, watch } from 'chokidar'
import { fileKind, isHidden } from '../delivery/file-kinds.ts'
import { byCodePoint } from '../text/code-points.ts'

/** What happens to the folder itself, and to the system's notices of what happens in it. */
export type FolderNews = 'gone' | 'back' | 'no-notices'

export interface FolderWatchOptions {
  /** Absolute. */
  readonly folder: string
  /** Given the path of each picture by its name, again and again; `isNews` when the system has just told of it. */
  readonly offer: (path: string, isNews: boolean) => void
  readonly tell: (news: FolderNews) => void
}

/** Time between two walks through the folder, in ms, at least and while it is gone. @choice some seconds go unnoticed where a notice was lost; no source. */
const PAUSE_MS = { least: 5000, gone: 1000 } as const

/** Share of the time that walking may take. @choice 10,000 files take a quarter of a second; no source. */
const MOST_SHARE = 0.02

/**
 * Tells of all pictures in a folder and below, at once when the system tells of them, and by walking through it now and then:
 * notices get lost on network drives, in sleep, and when a folder goes away and returns.
 */
export class FolderWatch {
  readonly #options: FolderWatchOptions
  #notices: FSWatcher | null = null
  /** Device and inode of the folder that notices are of; null while it is gone. */
  #place: string | null = null
  #timer: NodeJS.Timeout | null = null
  #walking: Promise<void> | null = null
  #isClosed = false

  constructor(options: FolderWatchOptions) {
    this.#options = options
  }

  /** Resolves when the folder was walked through once. */
  async start(): Promise<void> {
    this.#place = await placeOf(this.#options.folder)
    if (this.#place !== null) this.#listen()
    await this.walk()
  }

  /** Walks through the folder now. */
  walk(): Promise<void> {
    this.#walking ??= this.#walk().finally(() => {
      this.#walking = null
    })
    return this.#walking
  }

  async close(): Promise<void> {
    this.#isClosed = true
    if (this.#timer) clearTimeout(this.#timer)
    await this.#walking
    await this.#notices?.close()
  }

  async #walk(): Promise<void> {
    const began = performance.now()
    await this.#lookAtFolder()
    if (this.#place !== null) await this.#pictures(this.#options.folder)
    if (this.#isClosed) return
    const took = performance.now() - began
    const pause = this.#place === null ? PAUSE_MS.gone : Math.max(PAUSE_MS.least, took / MOST_SHARE)
    if (this.#timer) clearTimeout(this.#timer)
    this.#timer = setTimeout(() => void this.walk(), pause)
  }

  async #lookAtFolder(): Promise<void> {
    const place = await placeOf(this.#options.folder)
    if (place === this.#place || this.#isClosed) return
    const before = this.#place
    this.#place = place
    await this.#notices?.close()
    this.#notices = null
    if (place === null) this.#options.tell('gone')
    else {
      this.#listen()
      if (before === null) this.#options.tell('back')
    }
  }

  #listen(): void {
    const { folder, offer, tell } = this.#options
    const offered = (path: string) => {
      if (fileKind(basename(path)) === 'picture') offer(path, true)
    }
    this.#notices = watch(folder, {
      ignoreInitial: true,
      followSymlinks: false,
      ignored: (path) => path !== folder && isHidden(basename(path)),
    })
      .on('add', offered)
      .on('change', offered)
      .on('addDir', () => void this.walk())
      .on('unlinkDir', (path) => {
        if (path === folder) void this.walk()
      })
      .on('error', () => tell('no-notices'))
  }

  async #pictures(folder: string): Promise<void> {
    const entries = await readdir(folder, { withFileTypes: true }).catch(() => [])
    // As cameras count: a card that was copied before is taken in the order of its frames.
    for (const entry of entries.toSorted((a, b) => byCodePoint(a.name, b.name))) {
      if (this.#isClosed) return
      const path = join(folder, entry.name)
      if (isHidden(entry.name)) continue
      if (entry.isDirectory()) await this.#pictures(path)
      else if (entry.isFile() && fileKind(entry.name) === 'picture') this.#options.offer(path, false)
    }
  }
}

async function placeOf(folder: string): Promise<string | null> {
  try {
    const stats = await stat(folder)
    return stats.isDirectory() ? `${stats.dev} ${stats.ino}` : null
  } catch {
    return null
  }
}
