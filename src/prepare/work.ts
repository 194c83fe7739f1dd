import { createHash } from 'node:crypto'
import { mkdir, readFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { replaceWhole } from '../files/replace-whole.ts'
import { type MadeFile, makeFile } from './make-file.ts'
import { decodeMaster } from './pixels/decode.ts'
import { turnedMaster } from './pixels/turn.ts'
import type { PlannedFile } from './planning/plan.ts'

/** A file in the work folder, or why there is none. */
export interface Worked {
  readonly planned: PlannedFile
  readonly made: Omit<MadeFile, 'bytes'> & { readonly sha256: string; readonly bytes: number }
}

/** What could not be made of a master after all. */
export interface Failed {
  readonly planned: PlannedFile
  readonly reason: string
}

/**
 * Makes the files of one master and puts them into the work folder; the master is read and decoded once.
 * @throws Error when a file can't be written; the signal's reason when it is aborted
 */
export async function workOn(
  files: readonly PlannedFile[],
  folder: string,
  tiff: 'none' | 'lzw' | 'zip',
  signal: AbortSignal,
): Promise<(Worked | Failed)[]> {
  const [first] = files
  if (!first) return []
  const { found, measured } = first.master
  const content = await readFile(found.path, { signal }).catch(() => null)
  if (content === null || hashOf(content) !== measured.sha256) {
    signal.throwIfAborted()
    const reason = 'The master changed while it was at work. Run again.'
    return files.map((planned) => ({ planned, reason }))
  }
  const upright = await decodeMaster(content)
  // Of one person's head all files have the same tilt.
  const level = files.find(({ turnDeg }) => turnDeg !== 0)?.turnDeg ?? 0
  const leveled = level === 0 ? upright : await turnedMaster(upright, level)
  const done: (Worked | Failed)[] = []
  for (const planned of files) {
    signal.throwIfAborted()
    const { bytes, ...made } = await makeFile(planned, planned.turnDeg === 0 ? upright : leveled, tiff)
    const path = join(folder, planned.file)
    await mkdir(dirname(path), { recursive: true })
    await replaceWhole(path, bytes, { signal, flush: true })
    done.push({ planned, made: { ...made, sha256: hashOf(bytes), bytes: bytes.length } })
  }
  return done
}

export function hashOf(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex')
}
