import { createHash } from 'node:crypto'
import { mkdir, mkdtemp, readdir, rename, rm, stat, symlink } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, dirname, join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openEntries } from '../../src/cache/entries.ts'
import { measure } from '../../src/measure/measure.ts'
import type { Measurements } from '../../src/measure/schema/measurements.ts'
import { folder as asFolder, SPOILS } from './spoils.ts'

const GOOD = 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg'
const GROUPS = ['file', 'decode'] as const
const SHA256 = createHash('sha256').update('a picture').digest('hex')

let folder = ''
let measured: Measurements
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'entries-'))
  measured = await measure({ path: GOOD, file: 'good.jpg' }, GROUPS)
})
afterAll(() => rm(folder, { recursive: true }))

/** A cache of one entry. */
async function kept(name: string, measurer = 'this') {
  const place = join(folder, name)
  const entries = openEntries({ folder: place, measurer })
  await entries.keep(SHA256, GROUPS, measured)
  return { place, entries, path: await only(place) }
}

async function only(place: string): Promise<string> {
  const all = await readdir(place, { recursive: true, withFileTypes: true })
  const [one, ...more] = all.filter((each) => each.isFile())
  if (!one || more.length > 0) throw new Error(`${place} holds ${more.length} files more than one.`)
  return join(one.parentPath, one.name)
}

test('an entry is found by its content, under the name of each copy', async () => {
  const { entries } = await kept('copies')
  expect(await entries.find(SHA256, GROUPS, { file: 'b.jpg' })).toEqual({ ...measured, file: 'b.jpg' })
  expect(await entries.find('0'.repeat(64), GROUPS, { file: 'b.jpg' })).toBeNull()
})

test.each(SPOILS)(
  'an entry that is %s is as if it were not there, and is written anew',
  async (name, spoil) => {
    const { place, entries, path } = await kept(name)
    await spoil(path)
    expect(await entries.find(SHA256, GROUPS, { file: 'good.jpg' })).toBeNull()
    await entries.keep(SHA256, GROUPS, measured)
    expect(await only(place)).toBe(path)
    expect(await entries.find(SHA256, GROUPS, { file: 'good.jpg' })).toEqual(measured)
  },
)

test('a folder in place of an entry is left alone', async () => {
  const { entries, path } = await kept('folder')
  await asFolder(path)
  await entries.keep(SHA256, GROUPS, measured)
  expect(await entries.find(SHA256, GROUPS, { file: 'good.jpg' })).toBeNull()
  expect((await stat(path)).isDirectory()).toBe(true)
})

test("another measurer's entry opens under its own name only", async () => {
  const { path: ours, entries } = await kept('renamed')
  await rm(ours)
  const { path: theirs } = await kept('renamed', 'another')
  expect(theirs).not.toBe(ours)
  await mkdir(dirname(ours), { recursive: true })
  await rename(theirs, ours)
  expect(await entries.find(SHA256, GROUPS, { file: 'good.jpg' })).toBeNull()
})

test('nothing is written through a link to a folder', async () => {
  const { place, entries, path } = await kept('linked')
  const elsewhere = join(folder, 'elsewhere')
  await rm(dirname(path), { recursive: true })
  await mkdir(elsewhere)
  await symlink(elsewhere, join(place, basename(dirname(path))))
  await entries.keep(SHA256, GROUPS, measured)
  expect(await readdir(elsewhere)).toEqual([])
})
