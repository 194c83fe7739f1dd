import type { Dirent } from 'node:fs'
import { readdir, realpath, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { isInside } from '../files/folders.ts'
import { shortageOf } from '../files/shortage.ts'
import { fileKind } from './file-kinds.ts'

/** Looks for pictures below folders and counts what it leaves alone. */
export class Search {
  /** Absolute paths of the pictures found, each once, with where it leads when it is a link that must not be followed. */
  readonly pictures = new Map<string, string | null>()
  readonly left = { hidden: 0, sidecars: 0, links: 0, other: 0 }
  /** Absolute paths of the folders that could not be listed. */
  readonly unreadable: string[] = []
  readonly #realRoot: string
  readonly #holdsPhotograph: (path: string) => boolean
  readonly #walked = new Set<string>()

  /**
   * @param realRoot path, free of links, that the targets of links must lie in
   * @param holdsPhotograph whether a file whose name does not tell is a picture all the same
   */
  constructor(realRoot: string, holdsPhotograph: (path: string) => boolean) {
    this.#realRoot = realRoot
    this.#holdsPhotograph = holdsPhotograph
  }

  /** Adds all pictures below a folder. The signal stops it between folders. */
  async walk(folder: string, signal?: AbortSignal): Promise<void> {
    const waiting = [folder]
    for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
      signal?.throwIfAborted()
      if (this.#walked.has(next)) continue
      this.#walked.add(next)
      for (const entry of await this.#entries(next)) {
        const path = join(next, entry.name)
        const kind = fileKind(entry.name)
        if (kind === 'hidden') this.left.hidden++
        else if (entry.isDirectory()) waiting.push(path)
        else if (entry.isSymbolicLink()) await this.#addLink(path, kind === 'picture')
        else if (kind === 'picture') this.pictures.set(path, null)
        else if (this.#holdsPhotograph(path)) this.pictures.set(path, null)
        else if (kind === 'sidecar') this.left.sidecars++
        else this.left.other++
      }
    }
  }

  /** Adds a file that was given by name, whatever its extension. */
  async addFile(path: string): Promise<void> {
    await this.#addLink(path, true)
  }

  async #entries(folder: string): Promise<Dirent[]> {
    try {
      return await readdir(folder, { withFileTypes: true })
    } catch (error) {
      if (shortageOf(error) !== null) throw error
      this.unreadable.push(folder)
      return []
    }
  }

  async #addLink(path: string, picture: boolean): Promise<void> {
    if (picture) this.pictures.set(path, await this.#astray(path))
    else this.left.links++
  }

  /** Null for a link to a file in the root, and for a file that is no link. */
  async #astray(path: string): Promise<string | null> {
    try {
      const target = await realpath(path)
      if (!isInside(target, this.#realRoot)) return 'out of the delivery'
      return (await stat(target)).isDirectory() ? 'to a folder' : null
    } catch {
      return 'to nothing'
    }
  }
}
