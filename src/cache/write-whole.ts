import { randomBytes } from 'node:crypto'
import { rename, rm, writeFile } from 'node:fs/promises'

/** Ends the name of a file that is being written; one that is left over by a kill is no more than that. */
export const PART = '.part'

/**
 * Writes a file whole or not at all, also when two runs write the same.
 * @throws Error when it can't be written; nothing is left behind then
 */
export async function writeWhole(path: string, content: string | Buffer): Promise<void> {
  const part = `${path}.${randomBytes(6).toString('hex')}${PART}`
  try {
    await writeFile(part, content, { flag: 'wx', mode: 0o600 })
    await rename(part, path)
  } catch (error) {
    await rm(part, { force: true })
    throw error
  }
}
