import { basename } from 'node:path'
import { frameName } from '../frames/one-frame.ts'
import type { Frame } from '../session-log/state.ts'

/**
 * What a picked frame is called in the roster: its file's name, as `picked-frame` compares it with what programs keep of it; and
 * its time of capture where another frame of the session has the same name, as when a camera's counter begins anew.
 */
export function pickName(frame: Frame, frames: readonly Frame[]): string {
  const name = nameOf(frame)
  const time = frame.measured.metadata?.captureTime ?? null
  const others = frames.filter((one) => one.digest !== frame.digest)
  const isTaken = others.some((one) => frameName(nameOf(one)) === frameName(name))
  const isMoment = time !== null && others.every((one) => one.measured.metadata?.captureTime !== time)
  return isTaken && isMoment ? time : name
}

export function nameOf({ files, digest }: Pick<Frame, 'files' | 'digest'>): string {
  return basename(files[0] ?? digest)
}
