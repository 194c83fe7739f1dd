import { mkdir, readFile, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { replaceWhole } from '../files/replace-whole.ts'
import { sniff } from '../measure/file/container/sniff.ts'
import { opened, viewable } from '../viewing/viewable.ts'

/** Longest edge of what pages show, px. @choice fills a tablet; a portrait of it takes some 200 kB; no source. */
const EDGE_PX = 1600
/** @choice nobody sees a difference on a screen; no source. */
const QUALITY = 82

/** The pictures that pages show of a session's frames, by the frames' digests. */
export class Previews {
  readonly #folder: string
  readonly #making = new Map<string, Promise<Buffer | null>>()

  /** @param folder absolute */
  constructor(folder: string) {
    this.#folder = folder
  }

  /** Makes and keeps one; gives null, and says nothing, when it can't be made: a frame may go without. */
  make(digest: string, data: Buffer): Promise<Buffer | null> {
    const making = this.#make(digest, data).finally(() => this.#making.delete(digest))
    this.#making.set(digest, making)
    return making
  }

  /** Resolves when it is no longer being made. */
  async made(digest: string): Promise<void> {
    await this.#making.get(digest)
  }

  /** Null for a frame without one. @param digest of a frame of the session: nothing else may name a file */
  async read(digest: string): Promise<Buffer | null> {
    return (await this.#making.get(digest)) ?? readFile(this.#pathOf(digest)).catch(() => null)
  }

  async remove(digests: readonly string[]): Promise<void> {
    for (const digest of digests) await rm(this.#pathOf(digest), { force: true })
  }

  async #make(digest: string, data: Buffer): Promise<Buffer | null> {
    const jpeg = await smallJpeg(data).catch(() => null)
    if (!jpeg) return null
    try {
      // Only this one: where the watched folder has gone away, nothing must stand in its place when it comes back.
      await mkdir(this.#folder, { mode: 0o700 }).catch(() => {})
      await replaceWhole(this.#pathOf(digest), jpeg, { mode: 0o600 })
    } catch {
      // A full disk: it is made again when it is asked for.
    }
    return jpeg
  }

  #pathOf(digest: string): string {
    return join(this.#folder, `${digest}.jpg`)
  }
}

/** Null for what is no picture. @throws the decoder's error */
async function smallJpeg(data: Buffer): Promise<Buffer | null> {
  const picture = await viewable(data, sniff(data))
  if (!picture) return null
  return opened(picture)
    .resize(EDGE_PX, EDGE_PX, { fit: 'inside', withoutEnlargement: true })
    .jpeg({ quality: QUALITY })
    .toBuffer()
}
