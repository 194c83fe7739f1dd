import { lstat, readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { byCodePoint } from '../text/code-points.ts'
import type { Findings } from './problem.ts'

/** Most files and folders of a bag. @choice 20 files for each of 5,000 people */
const MOST = 100_000

/** What lies in a folder and below it: sizes in bytes by path from the folder on, with `/`. */
export type Listing = ReadonlyMap<string, number>

/**
 * Lists all regular files below a folder, hidden ones too. Links are not followed: they, devices and what can't be looked
 * at are problems.
 * @param folder absolute
 * @throws the signal's reason when it is aborted
 */
export async function listFiles(folder: string, findings: Findings, signal: AbortSignal): Promise<Listing> {
  const files: [string, number][] = []
  let seen = 0
  const waiting = ['']
  for (let below = waiting.pop(); below !== undefined; below = waiting.pop()) {
    signal.throwIfAborted()
    for (const name of await namesIn(join(folder, below), below, findings)) {
      const path = below === '' ? name : `${below}/${name}`
      if (++seen > MOST) {
        findings.problem(
          'structure',
          null,
          `There are more than ${MOST} files and folders; the rest was not read.`,
        )
        return new Map(files)
      }
      const kind = await kindOf(join(folder, path))
      if (kind === 'folder') waiting.push(path)
      else if (typeof kind === 'number') files.push([path, kind])
      else findings.problem(kind.fault, path, kind.message)
    }
  }
  return new Map(files.sort(([a], [b]) => byCodePoint(a, b)))
}

async function namesIn(folder: string, path: string, findings: Findings): Promise<string[]> {
  try {
    return await readdir(folder)
  } catch {
    findings.problem(
      'unreadable',
      path || null,
      'The folder could not be listed. Check that you may read it.',
    )
    return []
  }
}

async function kindOf(path: string) {
  const stats = await lstat(path).catch(() => null)
  if (stats?.isDirectory()) return 'folder'
  if (stats?.isFile()) return stats.size
  if (stats?.isSymbolicLink())
    return { fault: 'path', message: 'This is a link; a bag holds files and folders only.' } as const
  if (stats)
    return {
      fault: 'path',
      message: 'This is a device or a pipe; a bag holds files and folders only.',
    } as const
  // A name that is no UTF-8 can't be told back to the system.
  return {
    fault: 'unreadable',
    message: 'The file could not be looked at. Check its name and that you may read it.',
  } as const
}
