import { resolve } from 'node:path'
import { UsageError } from '../checking/usage-error.ts'
import { type Found, findFiles } from '../delivery/walk.ts'
import { isInside } from '../files/folders.ts'
import { holdsPhotograph } from '../measure/file/container/holds-photograph.ts'

/**
 * Finds the portraits to judge.
 * @param paths as the input names them, from the workspace on
 * @throws UsageError when a path holds none: mistyped, it would leave the delivery unjudged for good
 */
export async function findDelivery(
  workspace: string,
  paths: readonly string[],
  signal: AbortSignal,
): Promise<Found> {
  const found = await findFiles(
    paths.map((path) => resolve(workspace, path)),
    workspace,
    { signal, holdsPhotograph },
  )
  const [unreadable] = found.unreadable
  if (unreadable !== undefined)
    throw new UsageError(`${unreadable} could not be looked into. Check that the runner may read it.`)
  for (const path of paths) {
    const full = resolve(workspace, path)
    if (found.missing.includes(full))
      throw new UsageError(`There is nothing at ${path}. Correct the input paths, or the checkout step.`)
    if (!found.files.some((file) => isInside(file.path, full)))
      throw new UsageError(
        `${path} holds no portrait (JPEG, PNG, TIFF, WebP or AVIF). Correct the input paths, or the checkout step.`,
      )
  }
  return found
}
