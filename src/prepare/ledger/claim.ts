import { randomBytes } from 'node:crypto'
import { mkdir, readdir, rename, rm, writeFile } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { ownPath, type Processes, removeLeft } from '../../files/own-folder.ts'

/** Ends the name of the file that says by its name which process has the folder: `41-9f86d081.owner`. */
const OWNER = '.owner'

/**
 * Makes the folder that a run works in, which one run can have at a time; what a run that was stopped left in it is removed.
 * The folder appears with its owner's file in it, and is taken over by giving that file another name, which one run alone can do: a
 * run stopped at any moment leaves no folder whose owner can't be told, and two that find it abandoned don't both get it.
 * @returns the number of the process that has it; null when it is ours now
 * @throws Error when the folder can't be made
 */
export async function claim(folder: string, processes: Processes): Promise<number | null> {
  const { own, isRunning } = processes
  await mkdir(dirname(folder), { recursive: true })
  await removeLeft(dirname(folder), startOf(folder), processes)
  const aside = asideOf(folder, own)
  const file = `${own}-${randomBytes(4).toString('hex')}${OWNER}`
  await mkdir(aside)
  await writeFile(join(aside, file), '')
  for (;;) {
    if (await moved(aside, folder)) return null
    const inside = await readdir(folder).catch(() => [])
    const owner = inside.find((name) => name.endsWith(OWNER))
    // Without an owner no run has made it as it is. Once it is empty, ours takes its place.
    if (owner === undefined) {
      await removeAll(folder, inside)
      continue
    }
    const id = Number.parseInt(owner, 10)
    const isTaken = Number.isFinite(id) && id !== own && isRunning(id)
    if (!isTaken && !(await moved(join(folder, owner), join(folder, file)))) continue
    await rm(aside, { recursive: true, force: true })
    if (isTaken) return id
    await removeAll(
      folder,
      inside.filter((name) => name !== owner),
    )
    return null
  }
}

/** Gives the folder up and removes it. */
export async function release(folder: string, { own }: Pick<Processes, 'own'>): Promise<void> {
  // Under its own name it never stands without its owner's file.
  const aside = asideOf(folder, own)
  await rm((await moved(folder, aside)) ? aside : folder, { recursive: true, force: true })
}

/** Where a process makes the folder, and removes it again. */
function asideOf(folder: string, own: number): string {
  return ownPath(dirname(folder), startOf(folder), own)
}

function startOf(folder: string): string {
  return `${basename(folder)}.`
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

async function removeAll(folder: string, names: readonly string[]): Promise<void> {
  for (const name of names) await rm(join(folder, name), { recursive: true, force: true })
}
