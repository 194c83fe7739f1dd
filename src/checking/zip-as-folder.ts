import { tmpdir } from 'node:os'
import { basename, resolve } from 'node:path'
import { RefusedArchive } from '../archive/refused-archive.ts'
import { type Aside, unpackAside } from '../archive/unpack-aside.ts'
import { contentOf } from '../bag/bag-folder.ts'
import { causeOf } from '../files/cause.ts'
import { readHead } from '../files/read-at-most.ts'
import type { Host } from './host.ts'
import { UsageError } from './usage-error.ts'

/**
 * Does something with paths, a zip among them taken for the folder that it unpacks to; of a bag, the files that were packed.
 * @throws UsageError when the zip is refused or stands beside other paths
 */
export async function withZipAsFolder<T>(
  paths: readonly string[],
  host: Host,
  work: (paths: readonly string[]) => Promise<T>,
): Promise<T> {
  // An archive under a picture's name is a picture that fails, and what has a zip's name and is none was cut off.
  const zip = paths.find((path) => /\.zip$/i.test(path) && readHead(resolve(host.cwd, path), 1) !== null)
  if (zip === undefined) return work(paths)
  if (paths.length > 1)
    throw new UsageError(
      `${zip} is a zip, which is checked by itself; leave the other paths out, or unpack it.`,
    )
  const aside = await unpacked(zip, host)
  try {
    return await work([(await contentOf(aside.folder)).delivery])
  } finally {
    await aside.remove()
  }
}

/**
 * Unpacks a zip aside.
 * @param near absolute path of a folder to do so in; the system's own for such things unless told
 * @throws UsageError when it is refused, or there is no room
 */
export async function unpacked(path: string, host: Host, near = tmpdir()): Promise<Aside> {
  try {
    return await unpackAside(resolve(host.cwd, path), near, host)
  } catch (error) {
    host.signal.throwIfAborted()
    if (error instanceof RefusedArchive) throw new UsageError(`${basename(path)} ${error.message}`)
    const why = causeOf(error)
    throw new UsageError(
      `${path} could not be unpacked (${why}). Check that you may read it, and that there is room.`,
    )
  }
}
