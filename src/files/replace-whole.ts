import { randomBytes } from 'node:crypto'
import { renameSync, rmSync, writeFileSync } from 'node:fs'
import { rename, rm, writeFile } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'

/** Ends the name of a file that is being written; one that is left over by a kill is no more than that. */
export const PART = '.part'

/** A part that is this old, in ms, belongs to no run that still writes. */
export const ABANDONED_MS = 60 * 60 * 1000

export interface Writing {
  readonly signal?: AbortSignal
  /** Permissions of the file; the system's own when absent. */
  readonly mode?: number
  /** Whether it must have reached the disk before it takes its name: else a power cut may leave it empty. */
  readonly flush?: boolean
}

/**
 * Writes a file whole or not at all, also when two runs write the same: into a part beside it, which is then renamed.
 * @param path absolute
 * @throws Error when it can't be written, and nothing is left behind then; the signal's reason when it is aborted
 */
export async function replaceWhole(
  path: string,
  content: string | Buffer,
  writing: Writing = {},
): Promise<void> {
  const part = partBeside(path)
  try {
    await writeFile(part, content, { ...writing, flag: 'wx' })
    await rename(part, path)
  } catch (error) {
    await rm(part, { force: true })
    throw error
  }
}

/**
 * The same for a small file, while the thread waits. Each thread of the pool that files are otherwise written by keeps memory of its own, and those that
 * decode pictures keep much: in a worker they must not change places.
 * @param mode permissions of the file
 */
export function replaceWholeNow(path: string, content: string | Buffer, mode: number): void {
  const part = partBeside(path)
  try {
    writeFileSync(part, content, { mode, flag: 'wx' })
    renameSync(part, path)
  } catch (error) {
    rmSync(part, { force: true })
    throw error
  }
}

function partBeside(path: string): string {
  return join(dirname(path), `.${basename(path)}.${randomBytes(6).toString('hex')}${PART}`)
}

/** Whether a file is a part of the one of this name. */
export function isPartOf(other: string, name: string): boolean {
  return other.startsWith(`.${name}.`) && /^[0-9a-f]{12}\.part$/.test(other.slice(name.length + 2))
}
