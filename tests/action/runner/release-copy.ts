import { cp, mkdtemp } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { released } from '../../package/released.ts'

/** A copy of a release as a runner checks it out, without anything installed, in a folder with a space. */
export async function releaseCopy(): Promise<string> {
  const folder = join(await mkdtemp(join(tmpdir(), 'actions ')), 'portrait gate')
  await cp(await released(), folder, { recursive: true })
  return folder
}
