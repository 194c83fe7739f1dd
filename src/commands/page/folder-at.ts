import { stat } from 'node:fs/promises'
import { resolve } from 'node:path'
import type { Host } from '../../checking/host.ts'
import { UsageError } from '../../checking/usage-error.ts'

/**
 * Absolute path of a folder that is there.
 * @throws UsageError when it is not
 */
export async function folderAt(given: string, { cwd }: Host): Promise<string> {
  const folder = resolve(cwd, given)
  const isFolder = await stat(folder).then(
    (stats) => stats.isDirectory(),
    () => false,
  )
  if (!isFolder) throw new UsageError(`There is no folder at ${given}. Make it, or check its path.`)
  return folder
}
