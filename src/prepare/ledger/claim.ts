import { randomBytes } from 'node:crypto'
import { mkdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'

/** The processes of this machine. */
export interface Processes {
  readonly own: number
  readonly isRunning: (id: number) => boolean
}

const OWNER = 'process.txt'

/** How long a folder may be without its owner's number, ms: between making the one and writing the other. @choice far more than a busy disk takes, no source. */
const YOUNG_MS = 10_000

/**
 * Makes the folder that a run works in, which one run can have at a time; what a run that was stopped left in it is removed.
 * @returns the number of the process that has it; null when it is ours now
 * @throws Error when the folder can't be made
 */
export async function claim(folder: string, processes: Processes): Promise<number | null> {
  await mkdir(dirname(folder), { recursive: true })
  for (;;) {
    try {
      await mkdir(folder)
      await writeFile(join(folder, OWNER), String(processes.own), { flag: 'wx' })
      return null
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error
    }
    const owner = await ownerOf(folder)
    if (owner !== null && (owner === 0 || processes.isRunning(owner))) return owner
    // Of two that find it abandoned, one moves it away.
    const abandoned = `${folder}.${randomBytes(6).toString('hex')}`
    const isMine = await rename(folder, abandoned).then(
      () => true,
      () => false,
    )
    if (isMine) await rm(abandoned, { recursive: true, force: true })
  }
}

/** The process whose folder it is; 0 when that is just being written, null when nobody's. */
async function ownerOf(folder: string): Promise<number | null> {
  const text = await readFile(join(folder, OWNER), 'utf8').catch(() => '')
  const owner = Number.parseInt(text, 10)
  if (Number.isFinite(owner)) return owner
  const made = await stat(folder).catch(() => null)
  return made !== null && Date.now() - made.mtimeMs < YOUNG_MS ? 0 : null
}

export async function release(folder: string): Promise<void> {
  await rm(folder, { recursive: true, force: true })
}
