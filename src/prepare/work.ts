import { createHash } from 'node:crypto'
import { mkdir, readFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import type { PrepareSetting } from '../brand-spec/prepare-setting.ts'
import { replaceWhole } from '../files/replace-whole.ts'
import { type MadeFile, makeFile, relabeled } from './make-file.ts'
import { decodeMaster, type Master } from './pixels/decode.ts'
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

/** Why a master is not converted. */
const TABLED =
  'Its profile converts by tables, which is done perceptually only, and the spec asks for relative-colorimetric. Convert the master to an RGB space such as Adobe RGB (1998), or set "intent: perceptual".'

/**
 * Makes the files of one master and puts them into the work folder; the master is read and decoded once.
 * @throws Error when a file can't be written; the signal's reason when it is aborted
 */
export async function workOn(
  files: readonly PlannedFile[],
  folder: string,
  setting: PrepareSetting,
  signal: AbortSignal,
): Promise<(Worked | Failed)[]> {
  const [first] = files
  if (!first) return []
  const { found, measured } = first.master
  const content = await readFile(found.path, { signal }).catch(() => null)
  if (content === null || hashOf(content) !== measured.sha256) {
    signal.throwIfAborted()
    const reason = 'The master has changed since it was measured. Run again.'
    return files.map((planned) => ({ planned, reason }))
  }
  // Where no pixel changes, none is decoded.
  const isDecoded = files.some(({ isLossless }) => !isLossless)
  const upright = isDecoded ? await decodeMaster(content) : null
  if (upright?.isTabled && setting.intent === 'relative-colorimetric')
    return files.map((planned) => ({ planned, reason: TABLED }))
  // Of one person's head all files have the same tilt.
  const level = files.find(({ turnDeg }) => turnDeg !== 0)?.turnDeg ?? 0
  const leveled = upright && level !== 0 ? await turnedMaster(upright, level) : upright
  const work = async (planned: PlannedFile): Promise<Worked> => {
    signal.throwIfAborted()
    const master = planned.turnDeg === 0 ? upright : leveled
    const { bytes, ...made } = await madeOf(planned, content, master, setting)
    const path = join(folder, planned.file)
    await mkdir(dirname(path), { recursive: true })
    await replaceWhole(path, bytes, { signal, flush: true })
    return { planned, made: { ...made, sha256: hashOf(bytes), bytes: bytes.length } }
  }
  // While one is encoded, the next one is made smaller. None is left at work when another one fails.
  const done = await Promise.allSettled(files.map(work))
  return done.map((one) => {
    if (one.status === 'rejected') throw one.reason
    return one.value
  })
}

async function madeOf(
  planned: PlannedFile,
  content: Buffer,
  master: Master | null,
  setting: PrepareSetting,
): Promise<MadeFile> {
  return planned.isLossless || !master ? relabeled(planned, content) : makeFile(planned, master, setting)
}

export function hashOf(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex')
}
