import { mkdir, open } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { MOST_BYTES, MOST_ENTRIES } from '../archive/check-entries.ts'
import { DistinctNames } from '../archive/distinct-names.ts'
import { whyRefused } from '../archive/entry-name.ts'
import { holdsProgram } from '../archive/holds-program.ts'
import { readHead } from '../files/read-at-most.ts'
import type { Body } from '../server/body.ts'
import { quote } from '../text/quote.ts'

/** Bytes of a file by which programs are known. */
const HEAD = 64

/** Files that a browser sends, put into a folder of our own by the rules that hold for zips. */
export class Upload {
  readonly #folder: string
  readonly #names = new DistinctNames()
  #files = 0
  #bytes = 0

  /** @param folder absolute; nobody else writes there */
  constructor(folder: string) {
    this.#folder = folder
  }

  get files(): number {
    return this.#files
  }

  get bytes(): number {
    return this.#bytes
  }

  /**
   * Takes a file.
   * @param path from the folder on, with `/`
   * @returns null, or why it is refused, in words that follow the delivery's name: "holds ..."
   */
  async put(path: string, { bytes, stream }: Pick<Body, 'bytes' | 'stream'>): Promise<string | null> {
    if (bytes === null) return `holds ${quote(path)}, sent without its size`
    const why = whyRefused(path) ?? this.#names.add(path, false)
    if (why !== null) return why
    this.#files += 1
    if (this.#files > MOST_ENTRIES) return `holds more than ${MOST_ENTRIES} files`
    if (this.#bytes + bytes > MOST_BYTES) return `holds more than ${MOST_BYTES / 1024 ** 3} GiB`
    return this.#write(path, bytes, stream)
  }

  async #write(path: string, bytes: number, stream: AsyncIterable<Buffer>): Promise<string | null> {
    const target = join(this.#folder, path)
    await mkdir(dirname(target), { recursive: true })
    const file = await open(target, 'wx', 0o600)
    let length = 0
    try {
      for await (const chunk of stream) {
        length += chunk.length
        if (length > bytes) break
        await file.writeFile(chunk)
      }
    } finally {
      await file.close()
    }
    this.#bytes += length
    if (length !== bytes) return `was cut off at ${quote(path)}`
    return holdsProgram(readHead(target, HEAD) ?? Buffer.alloc(0))
      ? `holds ${quote(path)}, which is a program whatever its name says`
      : null
  }
}
