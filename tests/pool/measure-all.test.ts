import { createHash } from 'node:crypto'
import { copyFile, mkdir, mkdtemp, readdir, readFile, rm, utimes, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openEntries } from '../../src/cache/entries.ts'
import { type FileIndex, openIndex } from '../../src/cache/file-index.ts'
import type { MeasurementGroup } from '../../src/measure/schema/measurements.ts'
import { type Means, measureAll, portions } from '../../src/pool/measure-all.ts'
import { tiffFile } from '../measure/file/raw/tiff-file.ts'

const GOOD = 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg'
const MEANS: Means = { signal: new AbortController().signal, progress: () => {}, workers: 0, cache: null }

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'measure-all-'))
  await mkdir(join(folder, 'web'))
  const good = await readFile(GOOD)
  await writeFile(join(folder, 'web', 'cut.jpg'), good.subarray(0, good.length / 2))
  await writeFile(join(folder, 'web', 'empty.jpg'), '')
  await writeFile(join(folder, 'web', 'good.jpg'), good)
  await settle()
})
afterAll(() => rm(folder, { recursive: true }))

/** As if nothing had touched the files for a while; the inode's own time can't be set, so it is waited for. */
async function settle() {
  const hour = new Date(Date.now() - 3_600_000)
  for (const file of await readdir(join(folder, 'web'))) await utimes(join(folder, 'web', file), hour, hour)
  await new Promise((done) => setTimeout(done, 2100))
}

const sources = () =>
  ['cut.jpg', 'empty.jpg', 'good.jpg'].map((file) => ({
    path: join(folder, 'web', file),
    file: `web/${file}`,
  }))

test('many files come back in their order, and a stop is heeded', async () => {
  const told: number[] = []
  const measured = await measureAll(sources(), ['file'], {
    ...MEANS,
    progress: ({ done }) => told.push(done),
  })
  expect(measured.map(({ file }) => file)).toEqual(sources().map(({ file }) => file))
  expect(told).toEqual([1, 2, 3])
  await expect(measureAll(sources(), ['file'], { ...MEANS, signal: AbortSignal.abort() })).rejects.toThrow()
})

test('a checksum is told where it is asked for, and is that of the content', async () => {
  const hash = createHash('sha256')
    .update(await readFile(GOOD))
    .digest('hex')
  const tell = async (groups: readonly MeasurementGroup[]) =>
    (await measureAll(sources(), groups, MEANS)).map(({ sha256 }) => sha256)
  expect(await tell(['file'])).toEqual([null, null, null])
  expect((await tell(['file', 'checksum']))[2]).toBe(hash)
})

describe('with a cache', () => {
  const places = (name: string) => ({
    entries: { folder: join(folder, name, 'entries'), measurer: 'test' },
    index: join(folder, name, 'index'),
  })
  /** Measures, and tells which contents were asked for by reading the file. */
  async function run(name: string, groups: readonly MeasurementGroup[], files = sources(), rehash = false) {
    const place = places(name)
    const entries = openEntries(place.entries)
    const kept: string[] = []
    const cache = {
      entries: {
        ...entries,
        keep: async (...args: Parameters<typeof entries.keep>) => {
          kept.push(args[2].file)
          await entries.keep(...args)
        },
      },
      index: rehash ? null : openIndex(place.index),
    }
    return { measured: await measureAll(files, groups, { ...MEANS, cache }), kept }
  }

  test('nothing is measured twice, and what is told is the same', async () => {
    const groups = ['file', 'decode', 'face', 'focus'] as const
    const first = await run('twice', groups)
    expect(first.kept).toEqual(['web/cut.jpg', 'web/good.jpg'])
    for (const rehash of [false, true]) {
      const again = await run('twice', groups, sources(), rehash)
      expect(again.kept).toEqual([])
      expect(JSON.stringify(again.measured)).toBe(JSON.stringify(first.measured))
    }
    expect(JSON.stringify(first.measured)).toBe(JSON.stringify(await measureAll(sources(), groups, MEANS)))
  })

  test('fewer groups are taken from more, as if measured by themselves', async () => {
    await run('fewer', [
      'file',
      'decode',
      'metadata',
      'cutout',
      'halo',
      'texture',
      'eyes',
      'enlargement',
      'head',
    ])
    for (const groups of [
      ['finish'],
      ['eyes'],
      ['focus'],
      ['halo'],
      ['texture', 'background'],
      ['face'],
      ['decode'],
      ['metadata', 'decode'],
    ] as const) {
      const { measured, kept } = await run('fewer', groups)
      expect(kept).toEqual([])
      expect(JSON.stringify(measured)).toBe(JSON.stringify(await measureAll(sources(), groups, MEANS)))
    }
  })

  test('what is known is added to, not replaced', async () => {
    await run('more', ['focus'])
    for (const group of ['halo', 'cutout', 'eyes', 'texture'] as const)
      expect((await run('more', [group])).kept).toContain('web/good.jpg')
    const all = ['halo', 'cutout', 'eyes', 'texture'] as const
    const { measured, kept } = await run('more', all)
    expect(kept).toEqual([])
    expect(JSON.stringify(measured)).toBe(JSON.stringify(await measureAll(sources(), all, MEANS)))
  })

  test('a frame and a delivered file are known apart, whatever they hold', async () => {
    const raw = join(folder, 'raw.dng')
    // TIFF 6.0, tags 513 and 514: a JPEG inside, here in the DNG form (tag 50706).
    await writeFile(raw, tiffFile({ 256: 6000, 257: 4000, 513: await readFile(GOOD), 50706: 1 }))
    const hour = new Date(Date.now() - 3_600_000)
    await utimes(raw, hour, hour)
    await new Promise((done) => setTimeout(done, 2100))
    const files = [...sources(), { path: raw, file: 'raw.dng' }]
    const asFrames = files.map((file) => ({ ...file, isFrame: true }))
    const groups = ['face', 'checksum', 'background'] as const
    const fresh = async (of: typeof files) => JSON.stringify(await measureAll(of, groups, MEANS))
    for (const of of [asFrames, files, asFrames, files])
      expect(JSON.stringify((await run('frames', groups, of)).measured)).toBe(await fresh(of))
    expect((await run('frames', groups, asFrames)).measured[3]).toMatchObject({
      format: 'jpeg',
      fullSize: { widthPx: 6000, heightPx: 4000 },
    })
    expect((await run('frames', groups)).kept).toEqual([])
  })

  test('what was read with no pixel decoded is another matter', async () => {
    expect((await run('header', ['decode'])).kept).toHaveLength(2)
    const header = await run('header', ['file'])
    expect(header.kept).toHaveLength(2)
    expect(header.measured[2]?.intact).toBeNull()
  })

  test('a changed file is measured anew, another copy of a known one is not', async () => {
    await run('changed', ['file'])
    const copy = join(folder, 'web', 'copy.jpg')
    await copyFile(join(folder, 'web', 'good.jpg'), copy)
    const { measured, kept } = await run('changed', ['file'], [{ path: copy, file: 'web/copy.jpg' }])
    expect(kept).toEqual([])
    expect(measured[0]).toMatchObject({ file: 'web/copy.jpg', widthPx: 600 })
    await writeFile(copy, 'no picture any more')
    expect((await run('changed', ['file'], [{ path: copy, file: 'web/copy.jpg' }])).kept).toHaveLength(1)
    await rm(copy)
  })

  test('damage to what is kept, or another measurer, means measuring anew', async () => {
    const first = await run('damaged', ['file'])
    const { entries } = places('damaged')
    for (const path of await readdir(entries.folder, { recursive: true })) {
      const full = join(entries.folder, path)
      const content = await readFile(full).catch(() => null)
      if (content) await writeFile(full, content.fill(7, 40, 50))
    }
    const again = await run('damaged', ['file'])
    expect(again.kept).toHaveLength(2)
    expect(again.measured).toEqual(first.measured)
    const other = openEntries({ ...entries, measurer: 'other' })
    expect(await other.find(again.measured[2]?.sha256 ?? '', ['file'], { file: 'a' })).toBeNull()
  })
})

test('a file that was touched just now is not taken for settled', async () => {
  const fresh = join(folder, 'fresh.jpg')
  await writeFile(fresh, 'one')
  const place = join(folder, 'fresh-index')
  const learnt = async (index: FileIndex) => {
    await index.look(fresh)
    index.learn(fresh, 'a'.repeat(64))
    await index.save()
    return openIndex(place).look(fresh)
  }
  expect(await learnt(openIndex(place))).toBeNull()
})

test.each([
  [1, 2],
  [24, 2],
  [1000, 4],
] as const)(
  '%i files for %i workers: each once, in order, and none waits long for the last',
  (count, workers) => {
    const files = Array.from({ length: count }, (_, i) => ({ path: `/${i}`, file: `${i}` }))
    const all = portions(files, workers)
    expect(all.flat()).toEqual(files)
    expect(all.every((portion) => portion.length >= 1 && portion.length <= 16)).toBe(true)
    expect(all.at(-1)).toHaveLength(1)
  },
)
