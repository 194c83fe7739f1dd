import { createHash, randomBytes } from 'node:crypto'
import { readdir, rm, utimes, writeFile } from 'node:fs/promises'
import { dirname, join, relative } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { measurerId } from '../../../src/cache/measurer.ts'
import { nameOf } from '../../../src/cache/seal.ts'
import { seeded } from '../../random.ts'
import { type CacheReader, lost, wholeFiles, written } from './cache-content.ts'
import { CachedRun, forget } from './cached-run.ts'
import { killAtRandom } from './kills.ts'
import { copyDelivery, type Picture, put, settled } from './small-delivery.ts'

/** More by hand: KILLS=50 npm run test:long tests/long/fuzz/cache-two-runs.test.ts */
const ROUNDS = Number(process.env.KILLS ?? 1)

let runs: CachedRun
let reader: CacheReader
let copies: readonly Picture[] = []
beforeAll(async () => {
  runs = await CachedRun.prepare('fuzz-cache-two-runs', 60, 6)
  copies = await copyDelivery(runs.pictures.slice(20), join(runs.folder, 'other'))
  reader = await runs.reader(copies)
  await settled()
})
afterAll(() => runs.remove())

/** Every other file by its name: runs that share folders, and so listings, but no file. */
const everyOther = (from: 0 | 1) =>
  runs.pictures.filter((_, i) => i % 2 === from).map(({ path }) => relative(runs.folder, path))

const PAIRS = [
  ['on one delivery', () => ['delivery'], () => ['delivery']],
  ['on two deliveries that share pictures', () => ['delivery'], () => ['other']],
  ['on other files of the same folders', () => everyOther(0), () => everyOther(1)],
] as const

test.each(PAIRS)(
  'two runs at once %s, then one of them killed',
  async (_, one, two) => {
    const random = seeded(5)
    const place = await runs.emptied()
    const start = performance.now()
    const uncached = [await runs.check([...one(), '--no-cache']), await runs.check([...two(), '--no-cache'])]
    const wholeMs = (performance.now() - start) / 2
    let killed = 0
    for (let round = 0; round < ROUNDS; round++) {
      let before = await written(place.entries)
      const wrong = async () => [...(await reader.wrong(place)), ...(await lost(before, place.entries))]

      expect(await Promise.all([runs.check(one()), runs.check(two())])).toEqual(uncached)
      expect(await wrong()).toEqual([])
      // Nothing that either measured is lost: both together measured every picture.
      expect(await wholeFiles(place.entries)).toHaveLength(runs.pictures.length)

      await forget(place, random)
      before = await written(place.entries)
      const kill = { victim: runs.victim(two()), times: 1, random, wholeMs, written: [] }
      const [survivor, kills] = await Promise.all([
        runs.check(one()),
        killAtRandom({ ...kill, inspect: async () => [] }),
      ])
      killed += kills.killed
      expect(survivor).toEqual(uncached[0])
      expect(await wrong()).toEqual([])
      await forget(place, random)
    }
    if (process.env.KILLS !== undefined) process.stderr.write(`${killed} of ${ROUNDS} kills before the end\n`)
  },
  1_800_000,
)

test('what one run removes to make room, another that reads it meanwhile measures again', async () => {
  const uncached = await runs.check(['delivery', '--no-cache'])
  for (let round = 0; round < ROUNDS; round++) {
    const { entries } = await runs.emptied()
    await runs.check(['delivery'])
    const own = await wholeFiles(entries)
    const folders = [...new Set(own.map((path) => dirname(path)))]
    const fillers = await fill(folders)
    const longAgo = new Date('2020-01-01')
    for (const path of own) await utimes(path, longAgo, longAgo)
    await crowd(folders.map((path) => relative(entries, path)))

    const [reading, rehashing, crowding] = await Promise.all([
      runs.check(['delivery']),
      runs.check(['delivery', '--rehash']),
      runs.check(['crowd']),
    ])
    expect([reading, rehashing]).toEqual([uncached, uncached])
    expect(crowding).toMatchObject({ code: 1, stderr: '' })
    // Each folder was over full, and the oldest were just those that the others read.
    for (const folder of folders) expect((await readdir(folder)).length).toBeLessThanOrEqual(100)
    for (const filler of fillers) await rm(filler, { force: true })
    expect(await runs.check(['delivery'])).toEqual(uncached)
  }
})

/** Puts more than there may be into each folder of entries. */
async function fill(folders: readonly string[]): Promise<string[]> {
  const fillers = folders.flatMap((folder) =>
    Array.from({ length: 110 }, () => join(folder, randomBytes(31).toString('hex'))),
  )
  for (const filler of fillers) await writeFile(filler, 'an entry of another picture')
  return fillers
}

/** Makes a delivery whose entries go to these folders. */
async function crowd(folders: readonly string[]): Promise<void> {
  const about = `${measurerId()} pixels`
  const wanted = new Set(folders)
  for (let n = 0; wanted.size > 0; n++) {
    const content = Buffer.from(`note ${n}`)
    const sha256 = createHash('sha256').update(content).digest('hex')
    if (wanted.delete(nameOf(sha256, about).slice(0, 2))) await put(runs.folder, `crowd/${n}.jpg`, content)
  }
}
