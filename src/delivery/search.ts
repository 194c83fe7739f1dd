import type { Dirent } from 'node:fs'
import { readdir, realpath, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { isInside } from '../files/folders.ts'
import { shortageOf } from '../files/shortage.ts'
import { fileKind } from './file-kinds.ts'

// What stands in a text for bytes that are no UTF-8.
const UNKNOWN = '\ufffd'

/** Looks for pictures below folders and counts what it leaves alone. */
export class Search {
  /** Absolute paths of the pictures found, each once, with where it leads when it is a link that must not be followed. */
  readonly pictures = new Map<string, string | null>()
  readonly left = { hidden: 0, sidecars: 0, links: 0, other: 0 }
  /** Absolute paths of the folders that could not be listed. */
  readonly unreadable: string[] = []
  readonly #realRoot: string
  readonly #holdsPhotograph: (path: string | Buffer) => boolean
  readonly #walked = new Set<string>()
  /** Names of photographs that are no UTF-8, in the folder that was asked for last. */
  #untold: { readonly folder: string; readonly photographs: ReadonlySet<string> } | null = null

  /**
   * @param realRoot path, free of links, that the targets of links must lie in
   * @param holdsPhotograph whether a file whose name does not tell is a picture all the same
   */
  constructor(realRoot: string, holdsPhotograph: (path: string | Buffer) => boolean) {
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
        else if (await this.#isPhotograph(next, entry.name)) this.pictures.set(path, null)
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

  /** Whether a file whose name does not tell is a picture: of those that a name which is no UTF-8 may stand for, any. */
  async #isPhotograph(folder: string, name: string): Promise<boolean> {
    if (!name.includes(UNKNOWN)) return this.#holdsPhotograph(join(folder, name))
    if (this.#untold?.folder !== folder) {
      const within = Buffer.from(join(folder, '/'))
      const raw = (await readdir(folder, 'buffer')).filter((one) => one.toString().includes(UNKNOWN))
      const held = raw.filter((one) => this.#holdsPhotograph(Buffer.concat([within, one])))
      this.#untold = { folder, photographs: new Set(held.map(String)) }
    }
    return this.#untold.photographs.has(name)
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
