import { type Found, findFiles } from '../delivery/walk.ts'
import { holdsPhotograph } from '../measure/file/container/holds-photograph.ts'
import { forTerminal } from '../report/safe.ts'
import type { Host } from './host.ts'

/**
 * Finds the pictures below the paths given; says what is wrong and gives null when there is nothing to judge.
 * @param called what their user knows the paths by, where a zip was unpacked
 */
export async function findPictures(
  paths: readonly string[],
  host: Host,
  called = paths,
): Promise<Found | null> {
  const complain = (sentence: string) => host.stderr.write(`${forTerminal(sentence)}\n`)
  const found = await findFiles(paths, host.cwd, { signal: host.signal, holdsPhotograph })
  for (const path of found.missing) complain(`There is nothing at ${path}. Check the path and run again.`)
  for (const path of found.unreadable)
    complain(`${path} could not be read. Check that you may read it and run again.`)
  // A delivery judged in part could pass with portraits missing.
  if (found.missing.length > 0 || found.unreadable.length > 0) return null
  if (found.files.length === 0) {
    complain(
      `No portraits were found in ${called.join(', ')}. Name a folder with pictures (JPEG, PNG, TIFF, WebP or AVIF).`,
    )
    return null
  }
  return found
}
