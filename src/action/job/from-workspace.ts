import { relative, sep } from 'node:path'
import { isInside } from '../../files/folders.ts'

/** A path as the forge shows it, from the workspace on and with /; null when it lies elsewhere. */
export function fromWorkspace(workspace: string, path: string): string | null {
  return isInside(path, workspace) ? relative(workspace, path).split(sep).join('/') : null
}
