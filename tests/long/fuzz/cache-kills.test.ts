import { rm, utimes, writeFile } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { seeded } from '../../random.ts'
import { type CacheReader, lost, parts, wholeFiles, written } from './cache-content.ts'
import { CachedRun, forget, type Transcript } from './cached-run.ts'
import { killAtRandom } from './kills.ts'

/** More by hand: KILLS=50 npm run test:long tests/long/fuzz/cache-kills.test.ts */
const KILLS = Number(process.env.KILLS ?? 4)
const FOLDERS = 12

let runs: CachedRun
let reader: CacheReader
let uncached: Transcript
beforeAll(async () => {
  runs = await CachedRun.prepare('fuzz-cache-kills', 120, FOLDERS)
  reader = await runs.reader()
  uncached = await runs.check(['delivery', '--no-cache'])
})
afterAll(() => runs.remove())

test.each([
  ["the user's own cache", undefined],
  ['a folder given with --cache', 'given'],
] as const)(
  '%s: what kills leave is whole and used, and the next report the same',
  async (_, given) => {
    const place = await runs.emptied(given)
    const args = given === undefined ? ['delivery'] : ['delivery', '--cache', given]
    const start = performance.now()
    expect(await runs.check(args)).toEqual(uncached)
    const wholeMs = performance.now() - start
    expect(await wholeFiles(place.entries)).toHaveLength(runs.pictures.length)
    expect(await wholeFiles(place.index)).toHaveLength(FOLDERS)

    const random = seeded(11)
    const left = new Set<string>()
    let before = new Map<string, string>()
    let indexed = new Set<string>()
    const forgetSome = async () => {
      await forget(place, random)
      before = await written(place.entries)
      indexed = await reader.indexed(place.index)
    }
    await forgetSome()
    const { findings, killed } = await killAtRandom({
      victim: runs.victim(args),
      times: KILLS,
      random,
      wholeMs,
      written: [
        { folder: place.entries, forMs: wholeMs / 4 },
        { folder: place.index, forMs: 10 },
      ],
      async inspect() {
        const wrong = await reader.wrong(place)
        for (const name of await lost(before, place.entries)) wrong.push(`the entry ${name} is lost`)
        const known = await reader.indexed(place.index)
        for (const path of indexed) if (!known.has(path)) wrong.push(`the listing has lost ${path}`)
        for (const each of Object.values(place)) for (const part of await parts(each)) left.add(part)
        before = await written(place.entries)

        expect(await runs.check(args)).toEqual(uncached)
        wrong.push(...(await reader.wrong(place)))
        for (const name of await lost(before, place.entries)) wrong.push(`the entry ${name} was not used`)
        const kept = (await wholeFiles(place.entries)).length
        if (kept !== runs.pictures.length) wrong.push(`only ${kept} are kept`)
        await forgetSome()
        return wrong
      },
    })
    if (process.env.KILLS !== undefined)
      process.stderr.write(`${killed} of ${KILLS} kills before the end; parts that they left: ${left.size}\n`)
    expect(findings).toEqual([])
    expect(killed).toBeGreaterThanOrEqual(KILLS / 2)
    // Of so many some hit the writing of an entry; were there none, nothing was tried.
    expect(left.size).toBeGreaterThanOrEqual(KILLS >= 50 ? 1 : 0)

    // What a kill left in the middle of writing goes, once it is old, when its folder is next written to.
    for (const each of Object.values(place)) {
      const [path = ''] = await wholeFiles(each)
      await writeFile(join(dirname(path), `.${basename(path)}.0123456789ab.part`), 'half')
      const old = new Date(Date.now() - 2 * 60 * 60 * 1000)
      for (const part of await parts(each)) await utimes(part, old, old)
      for (const whole of await wholeFiles(each)) await rm(whole)
    }
    expect(await runs.check(args)).toEqual(uncached)
    for (const each of Object.values(place)) expect(await parts(each)).toEqual([])
  },
  900_000,
)
