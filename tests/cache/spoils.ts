import { execFileSync } from 'node:child_process'
import { mkdir, readFile, rm, symlink, truncate, writeFile } from 'node:fs/promises'
import { basename } from 'node:path'

/** What may have become of a file of a cache. */
export type Spoil = (path: string) => Promise<unknown>

/** After these the file can be written anew. */
export const SPOILS: readonly (readonly [name: string, spoil: Spoil])[] = [
  ['a bit turned', turnBit],
  ['cut to half', async (path) => truncate(path, (await readFile(path)).length >> 1)],
  ['emptied', (path) => truncate(path, 0)],
  ['as long as a film', (path) => truncate(path, 1.5 * 2 ** 30)],
  ['JSON of another shape', (path) => writeFile(path, '[null, {"state": 7}]')],
  ['null', (path) => writeFile(path, 'null')],
  ['a link to a file elsewhere', (path) => linked('/etc/hostname', path)],
  ['a link to nothing', (path) => linked('nothing', path)],
  ['a link to itself', (path) => linked(basename(path), path)],
  ['a link to a device that flows without end', (path) => linked('/dev/zero', path)],
  ['a pipe', pipe],
]

/** What stands in the way, and is not the cache's to remove. */
export async function folder(path: string): Promise<void> {
  await rm(path)
  await mkdir(path)
}

async function turnBit(path: string): Promise<void> {
  const content = await readFile(path)
  const at = content.length >> 1
  await writeFile(path, content.fill((content[at] ?? 0) ^ 4, at, at + 1))
}

async function linked(target: string, path: string): Promise<void> {
  await rm(path)
  await symlink(target, path)
}

async function pipe(path: string): Promise<void> {
  await rm(path)
  execFileSync('mkfifo', [path])
}
