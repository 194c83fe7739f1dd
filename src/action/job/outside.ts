import { resolve } from 'node:path'
import { UsageError } from '../../checking/usage-error.ts'
import { isInside } from '../../files/folders.ts'
import { realPlace } from '../../files/real-place.ts'

/**
 * Refuses paths that lead out of the workspace, by name or by a link that a change may have put there: what lies
 * elsewhere on the runner is nobody's delivery.
 * @param workspace absolute, free of links
 * @throws UsageError
 */
export async function refuseOutside(workspace: string, paths: readonly (string | null)[]): Promise<void> {
  for (const path of paths) {
    if (path === null) continue
    const full = resolve(workspace, path)
    const real = await realPlace(full)
    if (isInside(full, workspace) && real !== null && isInside(real, workspace)) continue
    throw new UsageError(
      `${path} leads out of the workspace or to nothing; name files and folders of the repository, and no links that lead elsewhere.`,
    )
  }
}
