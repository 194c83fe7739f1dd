import { createHash, randomBytes } from 'node:crypto'
import { mkdir, readdir, rm } from 'node:fs/promises'
import { hostname } from 'node:os'
import { join } from 'node:path'

/** The processes of this machine. */
export interface Processes {
  /** Number of this one. */
  readonly own: number
  readonly isRunning: (id: number) => boolean
}

/** A folder for what is being made, which only its owner may look into. */
export interface OwnFolder {
  /** Absolute. */
  readonly path: string
  /** Removes it, if it still has its name. */
  readonly remove: () => Promise<void>
}

/** Characters of the hash that tells machines which share a drive from each other. @choice 32 bits */
const DIGITS = 8

const MACHINE = createHash('sha256').update(hostname()).digest('hex').slice(0, DIGITS)

/** Folders that this process works in. */
const inUse = new Set<string>()

/**
 * Makes a folder whose name tells the process that it belongs to; those that stopped processes of this machine left are
 * removed before.
 * @param near absolute path of the folder to make it in
 * @param start of its name
 * @throws the system's error when it can't be made
 */
export async function makeOwnFolder(near: string, start: string, processes: Processes): Promise<OwnFolder> {
  await removeLeft(near, start, processes)
  const path = ownPath(near, start, processes.own)
  inUse.add(path)
  const remove = async () => {
    await rm(path, { recursive: true, force: true })
    inUse.delete(path)
  }
  try {
    await mkdir(path, { mode: 0o700 })
  } catch (error) {
    inUse.delete(path)
    throw error
  }
  return { path, remove }
}

/** A path that nothing is at yet, whose name tells the process that it belongs to. @param near absolute @param start of the name */
export function ownPath(near: string, start: string, own: number): string {
  return join(near, `${start}${MACHINE}-${own}-${randomBytes(4).toString('hex')}`)
}

/** Removes from a folder what stopped processes of this machine left under names of their own. */
export async function removeLeft(near: string, start: string, { own, isRunning }: Processes): Promise<void> {
  for (const name of await readdir(near).catch(() => [])) {
    const [, machine, id] = name.startsWith(start)
      ? (/^([0-9a-f]{8})-(\d+)-[0-9a-f]{8}/.exec(name.slice(start.length)) ?? [])
      : []
    if (machine !== MACHINE || inUse.has(join(near, name))) continue
    // One with our number that we don't work in is an earlier process's, as in containers, which number alike.
    const isLeft = Number(id) === own || !isRunning(Number(id))
    // Where it is another user's, it stays.
    if (isLeft) await rm(join(near, name), { recursive: true, force: true }).catch(() => {})
  }
}
