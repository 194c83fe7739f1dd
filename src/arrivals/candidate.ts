import { lstat } from 'node:fs/promises'
import { relative, sep } from 'node:path'
import { setTimeout } from 'node:timers/promises'

/** A file that may be a frame, as it was when it was looked at. */
export interface Candidate {
  /** Absolute. */
  readonly path: string
  /** From the session's folder, with `/`. */
  readonly file: string
  readonly bytes: number
  /** When it was last changed, in ms since 1970. */
  readonly modifiedMs: number
}

/** The file at a path as it is now; null when there is none. Links are none: they may lead out of the folder. */
export async function lookAt(path: string, folder: string): Promise<Candidate | null> {
  try {
    const stats = await lstat(path)
    if (!stats.isFile()) return null
    const file = relative(folder, path).split(sep).join('/')
    return { path, file, bytes: stats.size, modifiedMs: stats.mtimeMs }
  } catch {
    return null
  }
}

export function isAsBefore(one: Candidate, other: Candidate | null): boolean {
  return one.bytes === other?.bytes && one.modifiedMs === other.modifiedMs
}

/**
 * How long a file must keep its size and time to be tried, in ms. Whether it is whole, decoding it tells: this only saves
 * decoding one that still grows. @choice several writes of a copy or a transfer fall into it, and nobody notices it; no source.
 */
const STILL_MS = 80

/** The file when it keeps still; null when it has gone, or changes. */
export async function keptStill(before: Candidate, folder: string): Promise<Candidate | null> {
  if (before.bytes === 0) return null
  await setTimeout(STILL_MS)
  return isAsBefore(before, await lookAt(before.path, folder)) ? before : null
}
