import { createHash } from 'node:crypto'
import { constants } from 'node:fs'
import { open } from 'node:fs/promises'

/** Bytes that are read at once. @choice larger ones are no faster */
const CHUNK = 1024 * 1024

/** Checksums in lower-case hexadecimal by the name of their algorithm. */
export type Checksums = Readonly<Record<string, string>>

/** What goes through a file on its way. */
export type Chunks = (chunk: Buffer) => Promise<void> | void

/**
 * Reads a regular file from end to end in one go and takes all checksums of it; memory does not grow with the file.
 * @param path absolute
 * @param through gets each piece before the next is read, which overwrites it
 * @returns null when it is no regular file
 * @throws the system's error when it can't be read; the signal's reason when it is aborted
 */
export async function hashFile(
  path: string,
  algorithms: readonly string[],
  signal: AbortSignal,
  through: Chunks = () => {},
): Promise<{ checksums: Checksums; bytes: number } | null> {
  const hashes = algorithms.map((name) => [name, createHash(name)] as const)
  // Neither a pipe without a writer nor a link that came to be in the meantime. Windows has neither flag.
  const file = await open(
    path,
    constants.O_RDONLY | (constants.O_NONBLOCK ?? 0) | (constants.O_NOFOLLOW ?? 0),
  )
  try {
    const found = await file.stat()
    if (!found.isFile()) return null
    // The byte more is where a file shows that it has grown.
    const buffer = Buffer.allocUnsafe(Math.min(CHUNK, found.size + 1))
    let bytes = 0
    for (;;) {
      signal.throwIfAborted()
      const { bytesRead } = await file.read(buffer, 0, buffer.length, null)
      if (bytesRead === 0) break
      const chunk = buffer.subarray(0, bytesRead)
      for (const [, hash] of hashes) hash.update(chunk)
      await through(chunk)
      bytes += bytesRead
    }
    return { checksums: Object.fromEntries(hashes.map(([name, hash]) => [name, hash.digest('hex')])), bytes }
  } finally {
    await file.close()
  }
}
