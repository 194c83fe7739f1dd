import { execFile } from 'node:child_process'
import { mkdir, mkdtemp, rm } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)

export interface Built {
  /** Absolute; what is built lies in it as in the repository. */
  readonly folder: string
  remove(): Promise<void>
}

/** Compiles the project into a folder of its own, for tests that start it as a process. Run in the repository's root. */
export async function buildProject(): Promise<Built> {
  const cache = resolve('.cache')
  await mkdir(cache, { recursive: true })
  const folder = await mkdtemp(join(cache, 'built-'))
  // Types are checked elsewhere.
  const options = ['--outDir', folder, '--noCheck', '--declaration', 'false', '--sourceMap', 'false']
  await run('npx', ['tsc', '-p', 'tsconfig.build.json', ...options])
  return { folder, remove: () => rm(folder, { recursive: true, force: true }) }
}
