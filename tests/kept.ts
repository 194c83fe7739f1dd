import { createHash, randomBytes } from 'node:crypto'
import { access, mkdir, readdir, readFile, rename, rm, stat } from 'node:fs/promises'
import { dirname, join } from 'node:path'

/**
 * A folder that is made once and kept below `.cache/`; its name tells what it is made from. It is whole or absent, also
 * when several processes make it at once.
 * @param fill puts the content into a new folder
 */
export async function keptFolder(path: string, fill: (folder: string) => Promise<void>): Promise<string> {
  if (await exists(path)) return path
  const parts = `${path}.${randomBytes(6).toString('hex')}`
  await mkdir(parts, { recursive: true })
  try {
    await fill(parts)
    await mkdir(dirname(path), { recursive: true })
    await rename(parts, path)
  } catch (error) {
    await rm(parts, { recursive: true, force: true })
    // Another process was first.
    if (!(await exists(path))) throw error
  }
  return path
}

const DAY_MS = 86_400_000

/** Removes from a folder what nothing was added to for a day, but for the one that is in use. */
export async function removeOld(folder: string, used: string): Promise<void> {
  for (const name of await readdir(folder).catch(() => [])) {
    const found = name === used ? null : await stat(join(folder, name)).catch(() => null)
    if (found && Date.now() - found.mtimeMs > DAY_MS)
      await rm(join(folder, name), { recursive: true, force: true })
  }
}

/** SHA-256, hexadecimal, of the paths and the content of files, and of all files below folders. */
export async function hashOfFiles(...paths: readonly string[]): Promise<string> {
  const hash = createHash('sha256')
  for (const path of paths) {
    const below = await readdir(path, { recursive: true, withFileTypes: true }).catch(() => null)
    const files = below
      ? below.filter((one) => one.isFile()).map(({ parentPath, name }) => join(parentPath, name))
      : [path]
    for (const file of files.sort()) hash.update(`${file}\0`).update(await readFile(file))
  }
  return hash.digest('hex')
}

async function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  )
}
