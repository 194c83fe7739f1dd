import { execFile } from 'node:child_process'
import { cp, mkdir, readdir, symlink } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { promisify } from 'node:util'
import { built } from '../pool/built.ts'

const run = promisify(execFile)
const TSC = resolve('node_modules/typescript/bin/tsc')

export interface Packed {
  /** What the package holds, by path. */
  readonly files: readonly string[]
  /** A folder in which the package is installed with its dependencies, as a program's own would be. */
  readonly project: string
}

/** Builds and packs the package as it would be published, and installs it into a project; nothing is fetched. */
export async function packed(folder: string): Promise<Packed> {
  const source = join(folder, 'source')
  await mkdir(source)
  for (const part of ['package.json', 'README.md', 'CHANGELOG.md', 'LICENSE', 'schemas', 'docs'])
    await cp(part, join(source, part), { recursive: true })
  await cp(await built(), join(source, 'dist'), { recursive: true })
  const pack = ['pack', '--json', '--ignore-scripts', '--offline', '--pack-destination', folder]
  const { stdout } = await run('npm', pack, { cwd: source })
  const [made] = JSON.parse(stdout)
  const project = join(folder, 'project')
  const modules = join(project, 'node_modules')
  await mkdir(join(modules, 'portrait-gate'), { recursive: true })
  await run('tar', [
    '-xzf',
    join(folder, made.filename),
    '-C',
    join(modules, 'portrait-gate'),
    '--strip-components=1',
  ])
  for (const name of await readdir('node_modules'))
    if (!name.startsWith('.')) await symlink(resolve('node_modules', name), join(modules, name))
  return { files: made.files.map(({ path }: { path: string }) => path), project }
}

/** @throws Error with what the compiler says */
export async function tsc(cwd: string, ...args: readonly string[]): Promise<void> {
  await run(process.execPath, [TSC, ...args], { cwd }).catch((error) => {
    throw new Error(`${error.stdout}${error.stderr}`)
  })
}
