import { readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { isInShard } from '../../src/delivery/shard.ts'
import { picture, smallDelivery } from './runner/deliveries.ts'
import { git, gitEach } from './runner/git.ts'
import { judged } from './runner/in-process.ts'
import { Repository } from './runner/repository.ts'
import { ONLY_CHANGED, onRequestTo, ownFolder } from './runner/scene.ts'

let repository: Repository
let sha: string
const ATTRIBUTES = '*.jpg filter=lfs diff=lfs merge=lfs -text\n'

beforeAll(async () => {
  repository = await Repository.create(await ownFolder(), { '.gitattributes': ATTRIBUTES })
  // Git LFS (Debian's git-lfs) takes content from a repository of the same machine, as from a server.
  await repository.git('lfs', 'install', '--local')
  sha = await repository.commit(await smallDelivery())
})

const GRIEVE = 'portraits/Grieve-Morag.jpg'

async function judge(inputs: Readonly<Record<string, string>>, commit = sha) {
  const [workspace, temp] = [await ownFolder(), await ownFolder()]
  await repository.checkout(workspace, commit, '1')
  const pointer = await readFile(join(workspace, GRIEVE), 'utf8')
  expect(pointer).toMatch(/^version https:/)
  const job = { workspace, temp, eventName: 'schedule', event: {}, sha: commit }
  const ran = await judged({ paths: 'portraits', ...inputs }, job)
  return { ...ran, workspace }
}

test('pointers are failed rows, unless their content is to be fetched', async () => {
  expect(await judge({})).toMatchObject({ exit: 1, outputs: { checked: '4', failed: '4' } })
  const fetched = await judge({ 'lfs-token': 'secret-token' })
  expect(fetched).toMatchObject({ exit: 0, outputs: { checked: '4', failed: '0' } })
  // The checkout itself stays as it was.
  expect(await readFile(join(fetched.workspace, 'portraits/Grieve-Morag.jpg'), 'utf8')).toMatch(/^version/)
  expect(fetched.log + fetched.summary).not.toContain('secret-token')
})

test('a part fetches its own only', async () => {
  const names = Object.keys(await smallDelivery()).filter((path) => path.startsWith('portraits/'))
  const shard = { number: 1, of: 2 }
  const own = names.filter((path) => isInShard(path.replace('portraits/', ''), shard))
  const ran = await judge({ shard: '1/2', 'lfs-token': 'secret-token' })
  expect(ran.outputs).toMatchObject({ checked: String(own.length), failed: '0' })
  const objects = await git(ran.workspace, 'rev-parse', '--git-path', 'lfs/objects')
  const stored = await readdir(join(ran.workspace, objects), { recursive: true, withFileTypes: true })
  expect(stored.filter((one) => one.isFile())).toHaveLength(own.length)
})

/** A commit that has these texts too, as they are: no filter sees them. */
async function withTexts(texts: Readonly<Record<string, string>>): Promise<string> {
  const { folder } = repository
  const kept = Object.values(texts).map((text, n) => [join('.git', `text ${n}`), text] as const)
  for (const [path, text] of kept) await writeFile(join(folder, path), text)
  const hashes = await git(folder, 'hash-object', '-w', '--no-filters', ...kept.map(([path]) => path))
  const entries = hashes.split('\n').map((hash, n) => `100644,${hash},${Object.keys(texts)[n]}`)
  return gitEach(
    folder,
    ['update-index', '--add', ...entries.flatMap((entry) => ['--cacheinfo', entry])],
    ['commit', '-q', '-m', 'x'],
    ['rev-parse', 'HEAD'],
    ['reset', '-q', '--hard', 'HEAD^'],
  )
}

test('a text that Git LFS leaves as it is does not stand for the portrait that it names', async () => {
  // Of Adeyemi, whose content is fetched before.
  const pointer = await repository.git('cat-file', 'blob', `${sha}:portraits/Adeyemi-Folasade.jpg`)
  const [version, oid, size] = pointer.split('\n')
  const none = `oid sha256:${'0'.repeat(64)}`
  const texts = {
    'Hashes-Two': [version, none, oid, size],
    'Size-None': [version, oid],
    'Size-Another': [version, oid, 'size 12'],
    'Key-Toomuch': [version, oid, size, 'more x'],
    'Extension-One': [version, `ext-0-x ${none.slice(4)}`, oid, size],
    'Versions-Two': [version, version, oid, size],
  }
  const paths = Object.keys(texts).map((name) => `portraits/${name}.jpg`)
  const { 'staff.csv': staff } = await smallDelivery()
  const people = Object.keys(texts).map((name) => name.replace('-', ','))
  const commit = await withTexts({
    'staff.csv': `${staff}${people.join('\n')}\n`,
    ...Object.fromEntries(Object.values(texts).map((lines, n) => [paths[n], `${lines.join('\n')}\n`])),
  })
  const ran = await judge({ 'lfs-token': 'secret-token' }, commit)
  expect(ran).toMatchObject({ exit: 1, outputs: { checked: '10', failed: '6' } })
  expect(ran.commands.map(({ properties }) => properties.file).sort()).toEqual(paths.sort())
})

test('nor does a pointer where the attributes do not ask for content', async () => {
  const commit = await gitEach(
    repository.folder,
    ['rm', '-q', '--cached', '.gitattributes'],
    ['commit', '-q', '-m', 'x'],
    ['rev-parse', 'HEAD'],
    ['reset', '-q', '--hard', 'HEAD^'],
  )
  const ran = await judge({ 'lfs-token': 'secret-token' }, commit)
  expect(ran).toMatchObject({ exit: 1, outputs: { checked: '4', failed: '4' } })
})

test('the content of the base is fetched too, to tell what it had before', async () => {
  await repository.commit({ 'portraits/Stranger-Sam.jpg': await picture(80, 100, 120) })
  const change = { 'portraits/Grieve-Morag.jpg': await picture(80, 100, 77) }
  const ran = await onRequestTo(repository, change, {
    inputs: { ...ONLY_CHANGED, 'lfs-token': 'secret-token' },
  })
  expect(ran).toMatchObject({ exit: 0, outputs: { checked: '1', failed: '0' } })
  expect(ran.summary).toContain('Known before this change, and not counted: 1 finding')
})
