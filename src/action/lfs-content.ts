import { stat } from 'node:fs/promises'
import { join, relative, resolve, sep } from 'node:path'
import type { FoundFile } from '../delivery/walk.ts'
import { readAtMost } from '../files/read-at-most.ts'
import { realPlace } from '../files/real-place.ts'
import { type Pointed, pointed } from './committed-hash.ts'
import type { Git } from './git/git.ts'
import type { Tree } from './git/tree.ts'

// A pointer is shorter (Git LFS, docs/spec.md).
const MOST_BYTES = 1024
// So that they fit on a command line.
const ASKED_AT_ONCE = 200

/** A commit whose files may be pointers of Git LFS. */
interface Committed {
  readonly git: Git
  readonly tree: Tree
  /** Where a file lies in the checkout, absolute; null when that is not known. The file itself unless told. */
  readonly placeOf?: (file: FoundFile) => string | null
}

/**
 * Fetches the content of those files that are pointers of Git LFS, one by one: neither lists of patterns nor names of
 * strangers reach it. Only where git would put the content in place of the pointer: elsewhere the pointer is what
 * everybody gets.
 * @param server address of the forge, to which alone the token is sent
 * @returns where the content lies, by the paths of the files; what can't be had is left out
 */
export async function fetchLfs(
  committed: Committed,
  files: readonly FoundFile[],
  { server, token }: { server: string; token: string },
): Promise<ReadonlyMap<string, string>> {
  const { git } = committed
  const authorization = Buffer.from(`x-access-token:${token}`).toString('base64')
  const settings = { [`http.${server}/.extraheader`]: `AUTHORIZATION: basic ${authorization}` }
  const { stdout } = await git.ask('rev-parse', '--git-path', 'lfs/objects')
  const store = resolve(git.folder, stdout.trim())
  const fetched = new Map<string, string>()
  for (const file of await filteredFiles(committed, files)) {
    const pointer = await pointerIn(file.path)
    if (pointer === null) continue
    const { data, hash, size } = pointer
    const content = join(store, hash.slice(0, 2), hash.slice(2, 4), hash)
    // Of another size, Git LFS would take away what others have fetched.
    if (![null, size].includes(await sizeOf(content))) continue
    if ((await git.feed(data, settings, 'lfs', 'smudge')) && (await sizeOf(content)) === size)
      fetched.set(file.path, content)
  }
  return fetched
}

/** The pointers that git takes for such: files of the commit itself whose attributes name the filter (gitattributes(5)). */
async function filteredFiles(
  { git, tree, placeOf }: Committed,
  files: readonly FoundFile[],
): Promise<FoundFile[]> {
  const ways: [FoundFile, string][] = []
  for (const file of files) {
    if (file.astray !== undefined || (await pointerIn(file.path)) === null) continue
    const place = placeOf ? placeOf(file) : await realPlace(file.path)
    const way = place && relative(git.folder, place).split(sep).join('/')
    if (way && tree.entries.get(way)?.kind === 'file') ways.push([file, way])
  }
  const filtered: FoundFile[] = []
  for (let from = 0; from < ways.length; from += ASKED_AT_ONCE) {
    const asked = ways.slice(from, from + ASKED_AT_ONCE)
    const { stdout } = await git.ask('check-attr', '-z', 'filter', '--', ...asked.map(([, way]) => way))
    // Of each its name, the attribute and what it is set to (git-check-attr, option -z).
    const told = stdout.split('\0')
    filtered.push(...asked.flatMap(([file], index) => (told[3 * index + 2] === 'lfs' ? [file] : [])))
  }
  return filtered
}

async function sizeOf(path: string): Promise<number | null> {
  return stat(path).then(
    ({ size }) => size,
    () => null,
  )
}

/** The pointer of Git LFS that a file is; null when it is none. */
export async function pointerIn(path: string): Promise<(Pointed & { readonly data: Buffer }) | null> {
  const read = await readAtMost(path, MOST_BYTES).catch(() => null)
  const says = read && 'data' in read ? pointed(read.data) : null
  return read && 'data' in read && says !== null ? { data: read.data, ...says } : null
}
