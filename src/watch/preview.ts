import { mkdir, readFile, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { replaceWhole } from '../files/replace-whole.ts'
import { opened, viewable } from '../viewing/viewable.ts'

/** Longest edge of what pages show, px. @choice fills a tablet; a portrait of it takes some 200 kB; no source. */
const EDGE_PX = 1600
/** @choice nobody sees a difference on a screen; no source. */
const QUALITY = 82

/** The pictures that pages show of a session's frames, by the frames' digests. */
export class Previews {
  readonly #folder: string

  /** @param folder absolute */
  constructor(folder: string) {
    this.#folder = folder
  }

  /** Makes and keeps one; says nothing when it can't be: a frame may go without. */
  async make(digest: string, data: Buffer, format: string | null): Promise<void> {
    try {
      const picture = await viewable(data, format)
      if (!picture) return
      const jpeg = await opened(picture)
        .resize(EDGE_PX, EDGE_PX, { fit: 'inside', withoutEnlargement: true })
        .jpeg({ quality: QUALITY })
        .toBuffer()
      await mkdir(this.#folder, { recursive: true, mode: 0o700 })
      await replaceWhole(this.#pathOf(digest), jpeg, { mode: 0o600 })
    } catch {
      // A full disk, or a picture that only this decoder refuses.
    }
  }

  /** Null for a frame without one. @param digest of a frame of the session: nothing else may name a file */
  async read(digest: string): Promise<Buffer | null> {
    return readFile(this.#pathOf(digest)).catch(() => null)
  }

  async remove(digests: readonly string[]): Promise<void> {
    for (const digest of digests) await rm(this.#pathOf(digest), { force: true })
  }

  #pathOf(digest: string): string {
    return join(this.#folder, `${digest}.jpg`)
  }
}
