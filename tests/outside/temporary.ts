import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'

/** All tests make their folders in one, which goes when they are done. */
export default async function setup(): Promise<() => Promise<void>> {
  const before = process.env.TMPDIR
  const folder = await mkdtemp(join(tmpdir(), 'portrait-gate-'))
  process.env.TMPDIR = folder
  return async () => {
    if (before === undefined) delete process.env.TMPDIR
    else process.env.TMPDIR = before
    await rm(folder, { recursive: true, force: true })
  }
}
