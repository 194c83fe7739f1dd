import { mkdir, mkdtemp, readdir, readFile, rm, utimes, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { released } from '../../package/released.ts'
import { seeded } from '../../random.ts'
import { type KillOptions, killAtRandom, runWhole, type Victim } from './kills.ts'

/** More by hand: KILLS=50 npm run test:long tests/long/fuzz/kills.test.ts */
const KILLS = Number(process.env.KILLS ?? 16)
const REPORTS = ['report.json', 'report.md', 'report.xml', 'report.csv', 'report.html']
const PART = /^\.report(?:-\d)?\.(?:json|md|xml|csv|html)\.[0-9a-f]{12}\.part$/

let release = ''
let folder = ''
beforeAll(async () => {
  release = await released()
  folder = await mkdtemp(join(tmpdir(), 'kills-'))
  await mkdir(join(folder, 'delivery'))
  await mkdir(join(folder, 'reports'))
  await writeFile(join(folder, 'brand.yaml'), 'brand: Osprey Lane Veterinary Group\nversion: 1\n')
  // No pictures at all: measuring takes no time, and the reports on them are long.
  for (let n = 0; n < 240; n++) await writeFile(join(folder, 'delivery', `${n}.jpg`), `letter ${n}`)
})
afterAll(async () => {
  await rm(folder, { recursive: true })
})

function victim(): Victim {
  const outputs = REPORTS.flatMap((report) => {
    const format = report === 'report.xml' ? ['--format', 'junit'] : []
    return [...format, '--output', join('reports', report)]
  })
  return {
    program: process.execPath,
    args: [join(release, 'bundle', 'start.cjs'), 'check', 'delivery', ...outputs],
    cwd: folder,
    env: { ...process.env, HOME: folder, XDG_CACHE_HOME: join(folder, 'cache') },
  }
}

const reports = () => readdir(join(folder, 'reports'))

/** The page tells the time of day; everything else of two runs on a day is the same. */
async function contentOf(report: string): Promise<string> {
  const text = await readFile(join(folder, 'reports', report), 'utf8')
  return text.replace(/\d{4}-\d{2}-\d{2}[T ,]*\d{2}:\d{2}(?::\d{2})?/g, 'TIME')
}

test(`${KILLS} kills: every report is whole or absent, and the next run removes what was left`, async () => {
  const { code, ms } = await runWhole(victim())
  expect(code).toBe(1)
  const whole = new Map<string, string>()
  // The page of so many portraits has further ones beside it.
  for (const report of await reports()) whole.set(report, await contentOf(report))
  expect([...whole.keys()]).toEqual(expect.arrayContaining(REPORTS))
  await rm(join(folder, 'reports'), { recursive: true })
  await mkdir(join(folder, 'reports'))

  const kills: KillOptions = {
    victim: victim(),
    times: KILLS,
    random: seeded(9),
    wholeMs: ms,
    written: [{ folder: join(folder, 'reports'), forMs: 40 }],
    async inspect() {
      const wrong: string[] = []
      const names = await reports()
      for (const name of names.filter((one) => !PART.test(one)))
        if ((await contentOf(name)) !== whole.get(name)) wrong.push(`${name} is not whole`)
      // Absent again the next time: a report that is there already would hide that none is written.
      for (const name of names.filter((one) => whole.has(one))) await rm(join(folder, 'reports', name))
      return wrong
    },
  }
  const { findings, killed } = await killAtRandom(kills)
  expect(findings).toEqual([])
  expect(killed).toBeGreaterThan(KILLS / 2)

  const partsOf = async () => (await reports()).filter((name) => PART.test(name))
  // Kills in the middle of writing leave parts; as long as there are none, nothing was tried.
  for (let round = 0; round < 10 && (await partsOf()).length === 0; round++)
    expect((await killAtRandom({ ...kills, times: 6 })).findings).toEqual([])
  const parts = await partsOf()
  expect(parts.length).toBeGreaterThan(0)
  const longAgo = new Date(Date.now() - 2 * 60 * 60 * 1000)
  for (const part of parts) await utimes(join(folder, 'reports', part), longAgo, longAgo)
  await runWhole(victim())
  expect((await reports()).sort()).toEqual([...whole.keys()].sort())
})
