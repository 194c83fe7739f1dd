import { join } from 'node:path'
import { makeOwnFolder, type Processes } from '../files/own-folder.ts'
import { unpackZip } from './unpack.ts'

/** Begins the names of folders in which a hand-over is being made or unpacked. */
export const ASIDE = '.portrait-gate-'

/** What was unpacked where nobody else looks. */
export interface Aside {
  /** Absolute path of the folder with the content. */
  readonly folder: string
  /** Removes it. */
  readonly remove: () => Promise<void>
}

/**
 * Unpacks a zip into a new folder that only its owner may look into. What runs that were killed left beside it is removed.
 * @param path absolute
 * @param near absolute path of the folder in which that is made
 * @throws RefusedArchive; the system's error; the signal's reason when it is aborted
 */
export async function unpackAside(
  path: string,
  near: string,
  { processes, signal }: { readonly processes: Processes; readonly signal: AbortSignal },
): Promise<Aside> {
  const { path: around, remove } = await makeOwnFolder(near, ASIDE, processes)
  const folder = join(around, 'content')
  try {
    await unpackZip(path, folder, signal)
  } catch (error) {
    await remove()
    throw error
  }
  return { folder, remove }
}
