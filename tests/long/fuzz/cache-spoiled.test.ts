import { execFileSync } from 'node:child_process'
import { chmod, cp, mkdir, readdir, readFile, rename, rm, symlink, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { openEntries } from '../../../src/cache/entries.ts'
import { measurerId } from '../../../src/cache/measurer.ts'
import { nameOf } from '../../../src/cache/seal.ts'
import { measure } from '../../../src/measure/measure.ts'
import { SPOILS } from '../../cache/spoils.ts'
import { handOver, throughNobody } from './as-nobody.ts'
import { type CacheReader, lost, wholeFiles, written } from './cache-content.ts'
import { CachedRun, type Transcript } from './cached-run.ts'
import { userCacheOf } from './command.ts'
import { GROUPS } from './small-delivery.ts'

let runs: CachedRun
let reader: CacheReader
let uncached: Transcript
/** A whole cache, of which every test gets a copy. */
let whole = ''
beforeAll(async () => {
  runs = await CachedRun.prepare('fuzz-cache-spoiled', 24, 3)
  reader = await runs.reader()
  uncached = await runs.check(['delivery', '--no-cache'])
  await runs.check(['delivery'])
  whole = join(runs.folder, 'whole')
  await rename(userCacheOf(runs.folder), whole)
})
afterAll(() => runs.remove())
beforeEach(async () => {
  execFileSync('rm', ['-rf', userCacheOf(runs.folder)])
  await cp(whole, userCacheOf(runs.folder), { recursive: true, preserveTimestamps: true })
})

const folders = () => Object.values(runs.place())
const everything = async () => (await Promise.all(folders().map(wholeFiles))).flat()

/** All is kept, and as it was measured. */
async function expectWhole() {
  expect(await wholeFiles(runs.place().entries)).toHaveLength(runs.pictures.length)
  expect(await reader.wrong(runs.place())).toEqual([])
  expect((await reader.indexed(runs.place().index)).size).toBe(runs.pictures.length)
}

async function replaced(path: string, make: () => Promise<unknown>) {
  await rm(path, { recursive: true })
  await make()
}

describe('entries and listings that are', () => {
  // Each kind alone: tests/cache.
  test.each([0, 2])('damaged in all ways, dealt out from %i: measured again and kept anew', async (from) => {
    for (const [i, path] of (await everything()).entries())
      await SPOILS[(from * 3 + i) % SPOILS.length]?.[1](path)
    expect(await runs.check(['delivery'])).toEqual(uncached)
    await expectWhole()
  })

  test('folders: measured each time, and the folders are left alone', async () => {
    const paths = await everything()
    for (const path of paths) {
      await replaced(path, () => mkdir(path))
      await writeFile(join(path, 'note'), 'mine')
    }
    for (let n = 0; n < 2; n++) expect(await runs.check(['delivery'])).toEqual(uncached)
    for (const path of paths) expect(await readdir(path)).toEqual(['note'])
  })

  test("other pictures' own: measured again and kept anew", async () => {
    const entries = await wholeFiles(runs.place().entries)
    const contents = await Promise.all(entries.map((path) => readFile(path)))
    for (const [i, path] of entries.entries())
      await writeFile(path, contents[(i + 1) % contents.length] as Buffer)
    expect(await runs.check(['delivery'])).toEqual(uncached)
    await expectWhole()
  })
})

test("another version's entries are neither taken, also under this one's names, nor removed", async () => {
  const { entries } = await runs.emptied()
  const other = openEntries({ folder: entries, measurer: 'another' })
  for (const picture of runs.pictures)
    await other.keep(picture.sha256, GROUPS, { ...(await measure(picture, GROUPS)), widthPx: 9 })
  const others = await written(entries)
  expect(others.size).toBe(runs.pictures.length)
  expect(await runs.check(['delivery'])).toEqual(uncached)
  expect(await lost(others, entries)).toEqual([])

  const measurer = measurerId()
  for (const { sha256 } of runs.pictures) {
    const [theirs = '', ours = ''] = ['another', measurer].map((one) => {
      const name = nameOf(sha256, `${one} pixels`)
      return join(entries, name.slice(0, 2), name.slice(2))
    })
    await rename(theirs, ours)
  }
  expect(await runs.check(['delivery'])).toEqual(uncached)
  await expectWhole()
})

describe('folders of someone else', () => {
  /** More files than the cache keeps in one folder, one half with the names of parts. */
  async function letters(folder: string): Promise<string[]> {
    await mkdir(folder, { recursive: true })
    for (let n = 0; n < 200; n++)
      await writeFile(join(folder, n % 2 === 0 ? `${n}.txt` : `.${n}.part`), 'letter')
    return readdir(folder)
  }

  test('that a part of the cache is a link to: nothing is written there, nothing removed', async () => {
    const elsewhere = join(runs.folder, 'elsewhere')
    const before = await letters(elsewhere)
    const { entries } = runs.place()
    for (const name of await readdir(entries)) {
      const path = join(entries, name)
      await replaced(path, () => symlink(elsewhere, path))
    }
    expect(await runs.check(['delivery'])).toEqual(uncached)
    expect(await readdir(elsewhere)).toEqual(before)
  })

  test('that --cache names, and which hold such as "de" and "fa": all that was in them stays', async () => {
    const names = await readdir(runs.place().entries)
    const before = await Promise.all(names.map((name) => letters(join(runs.folder, 'site', name))))
    expect(await runs.check(['delivery', '--cache', 'site'])).toEqual(uncached)
    for (const [i, name] of names.entries())
      expect(await readdir(join(runs.folder, 'site', name))).toEqual(expect.arrayContaining(before[i] ?? []))
  })
})

describe('what may not be read or written', () => {
  const modes = [
    ['entries and listings that may not be read', 0, wholeFiles],
    ['folders of entries that may not be written to', 0o500, subfolders],
    ['folders of entries that may not be entered', 0, subfolders],
  ] as const
  test.each(modes)('%s: measured again where needed, with nothing to tell', async (_, mode, which) => {
    const through = await throughNobody([runs.release, runs.folder])
    if (through === null) return
    handOver(userCacheOf(runs.folder))
    for (const folder of folders()) for (const path of await which(folder)) await chmod(path, mode)
    expect(await runs.check(['delivery'], through)).toEqual(uncached)
    for (const folder of folders()) for (const path of await which(folder)) await chmod(path, 0o700)
    await expectWhole()
  })

  test.each([
    ['written to', 0o500],
    ['entered', 0o200],
  ] as const)('the folder of --cache itself, when it may not be %s: a sentence', async (_, mode) => {
    const through = await throughNobody([runs.release, runs.folder])
    if (through === null) return
    const folder = join(runs.folder, 'closed')
    await mkdir(folder, { recursive: true })
    handOver(folder)
    await chmod(folder, mode)
    const transcript = await runs.check(['delivery', '--cache', 'closed'], through)
    await chmod(folder, 0o700)
    expect(transcript).toEqual({
      code: 2,
      stdout: '',
      stderr:
        "The --cache folder closed can't be written to (EACCES). Name another, or leave the option out.\n",
    })
  })
})

async function subfolders(folder: string): Promise<string[]> {
  const all = await readdir(folder, { withFileTypes: true })
  return all.filter((one) => one.isDirectory()).map(({ name }) => join(folder, name))
}
