import { mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'

/** The processes of this machine. */
export interface Processes {
  readonly own: number
  readonly isRunning: (id: number) => boolean
}

const OWNER = 'process.txt'

/**
 * Makes the folder that a run works in, which one run can have at a time; what a run that was stopped left in it is removed.
 * The folder appears with its owner's number in it: a run stopped at any moment leaves no folder whose owner can't be told.
 * @returns the number of the process that has it; null when it is ours now
 * @throws Error when the folder can't be made
 */
export async function claim(folder: string, processes: Processes): Promise<number | null> {
  await mkdir(dirname(folder), { recursive: true })
  await removeAsides(folder, processes)
  const aside = `${folder}.${processes.own}`
  await mkdir(aside)
  await writeFile(join(aside, OWNER), String(processes.own))
  for (;;) {
    if (await moved(aside, folder)) return null
    const owner = await ownerOf(folder)
    if (owner !== null && owner !== processes.own && processes.isRunning(owner)) {
      await rm(aside, { recursive: true, force: true })
      return owner
    }
    // Of two that find it abandoned, one moves it away.
    const abandoned = `${aside}.abandoned`
    if (await moved(folder, abandoned)) await rm(abandoned, { recursive: true, force: true })
  }
}

/** Codes of a rename whose target is there or whose source is gone; Windows says EPERM for the first. */
const NOT_MOVED = ['ENOTEMPTY', 'EEXIST', 'ENOENT', ...(process.platform === 'win32' ? ['EPERM'] : [])]

/** @returns false when the target is there already or the source is gone */
async function moved(from: string, to: string): Promise<boolean> {
  try {
    await rename(from, to)
    return true
  } catch (error) {
    if (error instanceof Error && 'code' in error && NOT_MOVED.includes(String(error.code))) return false
    throw error
  }
}

async function ownerOf(folder: string): Promise<number | null> {
  const owner = Number.parseInt(await readFile(join(folder, OWNER), 'utf8').catch(() => ''), 10)
  return Number.isFinite(owner) ? owner : null
}

/** Removes what runs that were stopped left beside the folder, and what a run with our own number did. */
async function removeAsides(folder: string, { own, isRunning }: Processes): Promise<void> {
  const start = `${basename(folder)}.`
  for (const name of await readdir(dirname(folder))) {
    const owner = name.startsWith(start) ? Number.parseInt(name.slice(start.length), 10) : Number.NaN
    if (Number.isFinite(owner) && (owner === own || !isRunning(owner)))
      await rm(join(dirname(folder), name), { recursive: true, force: true })
  }
}

export async function release(folder: string): Promise<void> {
  await rm(folder, { recursive: true, force: true })
}
