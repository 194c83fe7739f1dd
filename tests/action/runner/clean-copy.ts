import { execFile } from 'node:child_process'
import { cp, lstat, mkdir, mkdtemp } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join, resolve } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)

/** A copy of the repository as git would commit it, without anything built or installed, in a folder with a space. */
export async function cleanCopy(): Promise<string> {
  const folder = join(await mkdtemp(join(tmpdir(), 'actions ')), 'portrait gate')
  const list = ['ls-files', '-z', '--cached', '--others', '--exclude-standard']
  const { stdout } = await run('git', list, { maxBuffer: 32 * 1024 * 1024 })
  for (const path of stdout.split('\0')) {
    // Of the examples only the workflows are read; the rest is pictures.
    if (path === '' || (path.startsWith('examples/') && !path.startsWith('examples/workflows/'))) continue
    if (!(await lstat(path).catch(() => null))) continue
    await mkdir(dirname(join(folder, path)), { recursive: true })
    await cp(resolve(path), join(folder, path))
  }
  return folder
}
