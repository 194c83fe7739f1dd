import { mkdtemp, readdir, readFile, rm, utimes, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type FileIndex, openIndex } from '../../src/cache/file-index.ts'
import { folder as asFolder, SPOILS, type Spoil } from './spoils.ts'

const CONTENT = { 'a.jpg': 'a'.repeat(64), 'b.jpg': 'b'.repeat(64) } as const
type Name = keyof typeof CONTENT
const NAMES: readonly Name[] = ['a.jpg', 'b.jpg']

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'file-index-'))
  for (const name of NAMES) await writeFile(join(folder, name), name)
  // What was touched in the last two seconds is not taken down, and the inode's own time can't be set.
  await new Promise((done) => setTimeout(done, 2100))
})
afterAll(() => rm(folder, { recursive: true }))

async function learn(index: FileIndex, ...names: readonly Name[]) {
  for (const name of names) {
    await index.look(join(folder, name))
    index.learn(join(folder, name), CONTENT[name])
  }
}
const known = (place: string) => Promise.all(NAMES.map((name) => openIndex(place).look(join(folder, name))))
const ALL = Object.values(CONTENT)
const NONE = [null, null]

async function spoiled(name: string, spoil: Spoil): Promise<string> {
  const place = join(folder, name)
  const index = openIndex(place)
  await learn(index, ...NAMES)
  await index.save()
  expect(await known(place)).toEqual(ALL)
  for (const listing of await readdir(place)) await spoil(join(place, listing))
  return place
}

const NO_BIT = SPOILS.filter(([name]) => name !== 'a bit turned')
test.each(NO_BIT)('a listing that is %s tells nothing, and is written anew', async (name, spoil) => {
  const place = await spoiled(name, spoil)
  expect(await known(place)).toEqual(NONE)
  const index = openIndex(place)
  await learn(index, ...NAMES)
  await index.save()
  expect(await known(place)).toEqual(ALL)
})

test('whichever bit is turned, no file gets the content of another', async () => {
  const place = await spoiled('bits', async () => {})
  const [listing = ''] = await readdir(place)
  const content = await readFile(join(place, listing))
  for (let i = 0; i < content.length; i++) {
    const changed = Buffer.from(content)
    changed[i] = (changed[i] ?? 0) ^ (1 << (i % 8))
    await writeFile(join(place, listing), changed)
    const [a, b] = await known(place)
    // Null, itself, or a hash that no picture has.
    expect(a, `byte ${i}`).not.toBe(CONTENT['b.jpg'])
    expect(b, `byte ${i}`).not.toBe(CONTENT['a.jpg'])
  }
})

test('a folder in place of a listing is left alone, and nothing is known', async () => {
  const place = await spoiled('folder', asFolder)
  const index = openIndex(place)
  await learn(index, ...NAMES)
  await index.save()
  expect(await known(place)).toEqual(NONE)
})

test('two runs that end one after the other lose nothing of each other', async () => {
  const place = join(folder, 'two')
  const [one, two] = [openIndex(place), openIndex(place)]
  await learn(one, 'a.jpg')
  await learn(two, 'b.jpg')
  await one.save()
  await two.save()
  expect(await known(place)).toEqual(ALL)
})

test('a file that was touched since is not known', async () => {
  const place = join(folder, 'touched')
  const path = join(folder, 'a.jpg')
  const index = openIndex(place)
  await learn(index, 'a.jpg')
  await index.save()
  expect(await openIndex(place).look(path)).toBe(CONTENT['a.jpg'])
  await utimes(path, new Date(), new Date())
  expect(await openIndex(place).look(path)).toBeNull()
})
