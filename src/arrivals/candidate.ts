import { lstat, open } from 'node:fs/promises'
import { relative, sep } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { MARKER } from '../measure/file/bytes/jpeg-markers.ts'

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

/** The file when it keeps still, or ends as a JPEG does; null when it has gone, or changes. */
export async function keptStill(before: Candidate, folder: string): Promise<Candidate | null> {
  if (before.bytes === 0) return null
  if (await endsAsJpeg(before)) return before
  await setTimeout(STILL_MS)
  return isAsBefore(before, await lookAt(before.path, folder)) ? before : null
}

/** Whether the last thing in a file is the end of a JPEG (EOI), which is found in none before its last byte, but behind small pictures in its header. @source ITU-T T.81, B.1.1. */
async function endsAsJpeg({ path, bytes }: Candidate): Promise<boolean> {
  const file = await open(path).catch(() => null)
  if (!file) return false
  try {
    const { buffer } = await file.read({ buffer: Buffer.alloc(EOI.length), position: bytes - EOI.length })
    return buffer.equals(EOI)
  } catch {
    return false
  } finally {
    await file.close()
  }
}

const EOI = Buffer.of(0xff, MARKER.EOI)
