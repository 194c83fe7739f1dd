import { lstat, realpath } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'

/**
 * Where a path leads, free of links: for what is not there yet, where it would be made, by the nearest folder above it
 * that is there.
 * @param path absolute
 * @returns null when a link on its way leads to nothing or in a circle, or may not be looked at
 */
export async function realPlace(path: string): Promise<string | null> {
  try {
    return await realpath(path)
  } catch {
    const isThere = await lstat(path).then(
      () => true,
      () => false,
    )
    if (isThere || path === dirname(path)) return null
    const above = await realPlace(dirname(path))
    return above && join(above, basename(path))
  }
}
