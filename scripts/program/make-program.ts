import { execFile } from 'node:child_process'
import { copyFile, mkdir, rm, writeFile } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { promisify } from 'node:util'
import { npmPackage } from '../../tests/outside/npm-package.ts'
import { writeInto } from '../package/write.ts'
import { LINUX_NODE, type Platform } from './platforms.ts'
import { INSIDE } from './start-scripts.ts'

/** Of a release, what only the Action, or who reads it on a forge, needs. */
const LEFT_OUT = ['action.yml', 'docs/images/']

/**
 * Makes the folder that a user unpacks: a start script, and beside it Node, the bundle and the picture library for that kind of
 * machine, whichever this one is.
 * @param folder nothing is there yet
 * @param release what a release holds, by path
 * @throws Error when a package can't be fetched or is not the one that was pinned
 */
export async function makeProgram(
  folder: string,
  { os, cpu, libc, node, binary, start }: Platform,
  release: ReadonlyMap<string, Uint8Array | string>,
): Promise<void> {
  const inside = join(folder, INSIDE)
  await mkdir(folder, { recursive: true })
  await writeInto(
    inside,
    new Map([...release].filter(([path]) => !LEFT_OUT.some((one) => path.startsWith(one)))),
  )
  const kind = [`--os=${os}`, `--cpu=${cpu}`, ...(libc === undefined ? [] : [`--libc=${libc}`])]
  const quiet = ['--ignore-scripts', '--no-audit', '--no-fund', '--prefer-offline', '--no-bin-links']
  // Without bin links: a zip holds no links, and none is needed.
  await promisify(execFile)('npm', ['ci', '--omit=dev', ...kind, ...quiet], { cwd: inside })
  const from = await npmPackage(node)
  await copyFile(join(from, binary), join(inside, basename(binary)))
  // The package for Windows has no license in it; it is the same for all.
  const license = join(await npmPackage(LINUX_NODE), 'LICENSE')
  await copyFile(license, join(inside, 'LICENSE-of-Node.txt'))
  await rm(join(inside, 'node_modules', '.package-lock.json'))
  await writeFile(join(folder, start.file), start.text, { mode: 0o755 })
}
