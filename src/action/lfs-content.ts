import { access } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import type { FoundFile } from '../delivery/walk.ts'
import { readAtMost } from '../files/read-at-most.ts'
import { pointedHash } from './committed-hash.ts'
import type { Git } from './git/git.ts'

// A pointer is shorter (Git LFS, docs/spec.md).
const MOST_BYTES = 1024

/**
 * Fetches the content of those files that are pointers of Git LFS, one by one: neither lists of patterns nor names of
 * strangers reach git.
 * @param server address of the forge, to which alone the token is sent
 * @returns where the content lies, by the paths of the files; what can't be had is left out
 */
export async function fetchLfs(
  git: Git,
  files: readonly FoundFile[],
  { server, token }: { server: string; token: string },
): Promise<ReadonlyMap<string, string>> {
  const authorization = Buffer.from(`x-access-token:${token}`).toString('base64')
  const settings = { [`http.${server}/.extraheader`]: `AUTHORIZATION: basic ${authorization}` }
  const { stdout } = await git.ask('rev-parse', '--git-path', 'lfs/objects')
  const store = resolve(git.folder, stdout.trim())
  const fetched = new Map<string, string>()
  for (const { path, astray } of files) {
    const pointer = astray === undefined ? await pointerIn(path) : null
    if (pointer === null) continue
    const { data, hash } = pointer
    await git.feed(data, settings, 'lfs', 'smudge')
    const content = join(store, hash.slice(0, 2), hash.slice(2, 4), hash)
    const isThere = await access(content).then(
      () => true,
      () => false,
    )
    if (isThere) fetched.set(path, content)
  }
  return fetched
}

/** The pointer of Git LFS that a file is, and the hash (hex) of the content that it names; null when it is none. */
export async function pointerIn(path: string): Promise<{ data: Buffer; hash: string } | null> {
  const read = await readAtMost(path, MOST_BYTES).catch(() => null)
  const hash = read && 'data' in read ? pointedHash(read.data) : null
  return read && 'data' in read && hash !== null ? { data: read.data, hash } : null
}
