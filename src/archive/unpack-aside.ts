import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { unpackZip } from './unpack.ts'

/** What was unpacked where nobody else looks. */
export interface Aside {
  /** Absolute path of the folder with the content. */
  readonly folder: string
  /** Removes it. */
  readonly remove: () => Promise<void>
}

/**
 * Unpacks a zip into a new folder that only its owner may look into.
 * @param path absolute
 * @param near absolute path of the folder in which that is made
 * @throws RefusedArchive; the system's error; the signal's reason when it is aborted
 */
export async function unpackAside(path: string, signal: AbortSignal, near = tmpdir()): Promise<Aside> {
  const around = await mkdtemp(join(near, '.portrait-gate-'))
  const remove = () => rm(around, { recursive: true, force: true })
  const folder = join(around, 'content')
  try {
    await unpackZip(path, folder, signal)
  } catch (error) {
    await remove()
    throw error
  }
  return { folder, remove }
}
