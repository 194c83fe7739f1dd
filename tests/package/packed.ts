import { execFile } from 'node:child_process'
import { cp, mkdir, readFile, symlink } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import { promisify } from 'node:util'
import { released } from './released.ts'

const run = promisify(execFile)
const TSC = resolve('node_modules/typescript/bin/tsc')

export interface Packed {
  /** What the package holds, by path. */
  readonly files: readonly string[]
  /** A folder in which the package is installed with its dependencies, as a program's own would be. */
  readonly project: string
}

/** Packs a release as it would be published, and installs it into a project; nothing is fetched. */
export async function packed(folder: string): Promise<Packed> {
  const pack = ['pack', '--json', '--ignore-scripts', '--offline', '--pack-destination', folder]
  const { stdout } = await run('npm', pack, { cwd: await released() })
  const [made] = JSON.parse(stdout)
  const project = join(folder, 'project')
  const own = join(project, 'node_modules', 'portrait-gate')
  await mkdir(own, { recursive: true })
  await run('tar', ['-xzf', join(folder, made.filename), '-C', own, '--strip-components=1'])
  const lock = JSON.parse(await readFile(join(await released(), 'package-lock.json'), 'utf8'))
  for (const path of Object.keys(lock.packages)) {
    const isThere = path !== '' && (await readFile(join(path, 'package.json')).catch(() => null))
    if (!isThere) continue
    await mkdir(dirname(join(project, path)), { recursive: true })
    await symlink(resolve(path), join(project, path))
  }
  // The types of Node, which a program that is compiled brings.
  for (const name of ['@types', 'undici-types'])
    await cp(join('node_modules', name), join(project, 'node_modules', name), { recursive: true })
  return { files: made.files.map(({ path }: { path: string }) => path), project }
}

/** @throws Error with what the compiler says */
export async function tsc(cwd: string, ...args: readonly string[]): Promise<void> {
  await run(process.execPath, [TSC, ...args], { cwd }).catch((error) => {
    throw new Error(`${error.stdout}${error.stderr}`)
  })
}
