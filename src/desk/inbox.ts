import type { Dirent } from 'node:fs'
import { lstat, readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { MOST_ENTRIES } from '../archive/check-entries.ts'
import { byCodePoint } from '../text/code-points.ts'

/** Time between two looks unless told, in ms. What looks the same at both is taken to be whole. @choice a copy writes more often than this; no source */
const LOOK_MS = 2000

export interface InboxOptions {
  /** Absolute. */
  readonly folder: string
  /** A zip or a folder keeps still, and is new or has changed. */
  readonly take: (name: string) => void
  /** Something that was taken is no longer there. */
  readonly gone: (name: string) => void
  /** What is to be told of the folder: sentences. */
  readonly tell: (notes: readonly string[]) => void
  /** Time between two looks, in ms. */
  readonly everyMs?: number
}

/** A folder that deliveries are put into: each zip and each folder in it is one. Nothing in it is ever changed. */
export class Inbox {
  readonly #options: InboxOptions
  /** What each looked like the last time. */
  readonly #seen = new Map<string, string>()
  readonly #taken = new Map<string, string>()
  #timer: NodeJS.Timeout | null = null
  #looking: Promise<void> = Promise.resolve()
  #isClosed = false

  constructor(options: InboxOptions) {
    this.#options = options
  }

  start(): void {
    this.#again(0)
  }

  async close(): Promise<void> {
    this.#isClosed = true
    if (this.#timer) clearTimeout(this.#timer)
    await this.#looking
  }

  #again(wait: number): void {
    this.#timer = setTimeout(() => {
      this.#looking = this.#look().finally(() => {
        if (!this.#isClosed) this.#again(this.#options.everyMs ?? LOOK_MS)
      })
    }, wait)
  }

  async #look(): Promise<void> {
    const { folder, take, gone, tell } = this.#options
    const entries = await readdir(folder, { withFileTypes: true }).catch(() => null)
    if (entries === null) {
      tell([`${folder} can't be read. Bring it back, or check that you may read it.`])
      return
    }
    const names = new Set(entries.map(({ name }) => name))
    const seen = entries.filter(({ name }) => !name.startsWith('.') && !name.endsWith(SIGN_OFF))
    const isSigned = ({ name }: Dirent) => names.has(`${name}${SIGN_OFF}`)
    const deliveries = seen.filter(isDelivery).sort((a, b) => byCodePoint(a.name, b.name))
    for (const { name } of deliveries.filter((entry) => !isSigned(entry))) {
      const look = await lookOf(join(folder, name))
      const isStill = this.#seen.get(name) === look
      this.#seen.set(name, look)
      if (this.#isClosed) return
      if (!isStill || this.#taken.get(name) === look) continue
      this.#taken.set(name, look)
      take(name)
    }
    for (const name of this.#taken.keys())
      if (!names.has(name)) {
        this.#taken.delete(name)
        this.#seen.delete(name)
        gone(name)
      }
    const others = seen.filter((entry) => !isDelivery(entry))
    const before = deliveries.filter((entry) => isSigned(entry) && !this.#taken.has(entry.name))
    tell([
      ...others.map(({ name }) => `${name} is neither a zip nor a folder; put portraits into a folder.`),
      ...before.map(({ name }) => `${name} was signed before and is left alone (${name}${SIGN_OFF}).`),
    ])
  }
}

function isDelivery(entry: Dirent): boolean {
  return entry.isDirectory() || (entry.isFile() && /\.zip$/i.test(entry.name))
}

/** What the name of a sign-off file ends with, after that of the delivery which it lies beside. */
export const SIGN_OFF = '.sign-off.json'

/** Sizes and times of a file, or of all that is in a folder. Links are told apart and not followed. */
async function lookOf(path: string): Promise<string> {
  const stats = await lstat(path).catch(() => null)
  if (!stats?.isDirectory()) return `${stats?.size} ${stats?.mtimeMs}`
  const entries = await readdir(path, { recursive: true, withFileTypes: true }).catch(() => [])
  const parts: string[] = []
  for (const { parentPath, name } of entries.slice(0, MOST_ENTRIES)) {
    const one = await lstat(join(parentPath, name)).catch(() => null)
    parts.push(`${join(parentPath, name)} ${one?.isDirectory() ? '' : `${one?.size} ${one?.mtimeMs}`}`)
  }
  return parts.sort(byCodePoint).join('\n')
}
