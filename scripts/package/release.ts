import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { packageContents } from './contents.ts'

interface Lock {
  readonly packages: Readonly<Record<string, { readonly dev?: boolean; readonly devOptional?: boolean }>>
}

/** Of the repository, what a release holds as it is, beside what package.json names under `files`: pictures of its pages, too. */
const KEPT = ['LICENSE', 'action.yml']

/**
 * A release by path: the package without the development tree, and the Action. Its package.json and lock file name only what is
 * installed with it. Run in the repository's root when it is built.
 * @param built folder of the build, such as `dist/src`
 */
export async function releaseContents(built: string): Promise<ReadonlyMap<string, Uint8Array | string>> {
  const about = JSON.parse(await readFile('package.json', 'utf8'))
  const { scripts: _, devDependencies: __, ...released } = about
  const lock: Lock = JSON.parse(await readFile('package-lock.json', 'utf8'))
  const { name, version, license, dependencies, bin, engines } = released
  const packages = {
    '': { name, version, license, dependencies, bin, engines },
    ...Object.fromEntries(Object.entries(lock.packages).filter(([path, one]) => path !== '' && !one.dev)),
  }
  const files: string[] = released.files.filter((path: string) => path !== 'bundle' && !path.startsWith('!'))
  const kept = (await Promise.all([...files, ...KEPT].map(filesOf))).flat()
  return new Map<string, Uint8Array | string>([
    ['package.json', json(released)],
    ['package-lock.json', json({ ...lock, packages })],
    ...(await Promise.all(
      kept.map(async (path): Promise<[string, Uint8Array]> => [path, await readFile(path)]),
    )),
    ...[...(await packageContents(built))].map(([path, content]): [string, Uint8Array | string] => [
      join('bundle', path),
      content,
    ]),
  ])
}

async function filesOf(path: string): Promise<string[]> {
  const below = await readdir(path, { recursive: true, withFileTypes: true }).catch(() => null)
  if (below === null) return [path]
  return below.filter((one) => one.isFile()).map((one) => join(one.parentPath, one.name))
}

function json(value: object): string {
  return `${JSON.stringify(value, null, 2)}\n`
}
