import { lstat, readdir, rm, stat, writeFile } from 'node:fs/promises'
import { basename, dirname, join, resolve } from 'node:path'
import { isInside } from './folders.ts'
import { ABANDONED_MS, isPartOf, replaceWhole } from './replace-whole.ts'

/** Where relative paths begin (absolute), and what stops the writing. */
export interface Writer {
  readonly cwd: string
  readonly signal: AbortSignal
}

/**
 * Writes a file whole or not at all: a stop, a kill or a full disk in the middle leaves what was there before. Parts that
 * earlier kills left beside it are removed. A device or a pipe is written to as it is, never replaced; a link is replaced
 * and never followed, since whoever wrote the folder chose where it leads. Only the system's own links are followed.
 * @throws Error when it can't be written; the signal's reason when it is aborted
 */
export async function writeWhole(file: string, text: string, { cwd, signal }: Writer): Promise<void> {
  const target = resolve(cwd, file)
  // Where standard output goes to a file, what stands there stays.
  if (await isStream(target)) return writeFile(target, text, { signal, flag: 'a' })
  await removeAbandoned(dirname(target), basename(target))
  await replaceWhole(target, text, { signal, flush: true })
}

// Where standard output and open files have their names, which are links.
const SYSTEM_FOLDERS = ['/dev', '/proc']

/** Whether an absolute path is a device, a pipe, or the system's name of an open file, which are written to as they are. */
export async function isStream(path: string): Promise<boolean> {
  return lstat(path).then(
    (stats) =>
      stats.isSymbolicLink()
        ? SYSTEM_FOLDERS.some((folder) => isInside(path, folder))
        : !stats.isFile() && !stats.isDirectory(),
    () => false,
  )
}

async function removeAbandoned(folder: string, name: string): Promise<void> {
  const names = await readdir(folder).catch(() => [])
  for (const one of names.filter((other) => isPartOf(other, name))) {
    const path = join(folder, one)
    const age = await stat(path).then(
      ({ mtimeMs }) => Date.now() - mtimeMs,
      () => 0,
    )
    if (age > ABANDONED_MS) await rm(path, { force: true }).catch(() => {})
  }
}
