import { execFileSync } from 'node:child_process'
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Prepared } from '../../../src/prepare/ledger/prepared.ts'
import { hashOf } from '../../../src/prepare/work.ts'
import { released } from '../../package/released.ts'
import { seeded } from '../../random.ts'
import { runCommand } from '../fuzz/command.ts'
import { killAtRandom, runWhole, type Victim } from '../fuzz/kills.ts'
import { mounted } from '../fuzz/mounted.ts'

/** More by hand: KILLS=50 npm run test:long tests/long/prepare/kills.test.ts */
const KILLS = Number(process.env.KILLS ?? 10)
const MASTERS = 8

let release = ''
let folder = ''
const hashes = new Map<string, string>()

/** No rule looks at a face, so that a run is short and most of it is writing. */
const brand = (creator: string) => `brand: Osprey Lane Veterinary Group
version: 1
naming: { pattern: "{deliverable}/{staff-id}.jpg" }
masters: { naming: "{staff-id}.png" }
prepare: { metadata: { creator: "${creator}" } }
deliverables:
  large:
  small: { file-size: { max: 60 kB } }
one-face: false
color-space: sRGB
`

beforeAll(async () => {
  release = await released()
  folder = await mkdtemp(join(tmpdir(), 'prepare-kills-'))
  await mkdir(join(folder, 'masters'))
  await writeFile(join(folder, 'brand.yaml'), brand('Nobody'))
  const random = seeded(4)
  for (let n = 0; n < MASTERS; n++) {
    // Noise, so that the files are large, on a color of their own.
    const pixels = Uint8Array.from({ length: 240 * 300 * 3 }, (_, i) => 60 * (i % 3) + 20 * n * random())
    const path = join(folder, 'masters', `${n}.png`)
    await sharp(pixels, { raw: { width: 240, height: 300, channels: 3 } })
      .blur(2)
      .png()
      .toFile(path)
    hashes.set(path, hashOf(await readFile(path)))
  }
})
afterAll(async () => {
  await rm(folder, { recursive: true })
})

const args = (output: string) => ['prepare', 'masters', '--output', output, '--no-cache', '--format', 'json']

async function filesBelow(path: string): Promise<string[]> {
  const all = await readdir(path, { recursive: true, withFileTypes: true }).catch(() => [])
  return all.filter((one) => one.isFile()).map(({ parentPath, name }) => join(parentPath, name))
}

async function ledgerOf(output: string): Promise<Prepared | null> {
  return readFile(join(folder, `${output}-prepared.json`), 'utf8').then(JSON.parse, () => null)
}

/** What is wrong with the files of a delivery: each must be as it was recorded, now or before. */
async function wrongIn(output: string): Promise<string[]> {
  const wrong: string[] = []
  const known = (await ledgerOf(output))?.files.flatMap(({ sha256, replaces }) => [sha256, replaces]) ?? []
  for (const file of await filesBelow(join(folder, output)))
    if (!known.includes(hashOf(await readFile(file)))) wrong.push(`${file} is not as it was recorded`)
  for (const [path, hash] of hashes)
    if (hashOf(await readFile(path)) !== hash) wrong.push(`the master ${path} has changed`)
  return wrong
}

test(`${KILLS} kills: every file is whole, no master changes, and the next run goes on`, async () => {
  const victim: Victim = {
    program: process.execPath,
    args: [join(release, 'bundle', 'start.cjs'), ...args('killed')],
    cwd: folder,
  }
  const { code, ms } = await runWhole(victim)
  expect(code).toBe(0)
  const places = [folder, join(folder, 'killed', 'large')].map((place) => ({ folder: place, forMs: ms / 2 }))
  let turn = 0
  const { findings, killed } = await killAtRandom({
    ...{ victim, times: KILLS, random: seeded(18), wholeMs: ms, written: places },
    async inspect() {
      const wrong = await wrongIn('killed')
      // Each run has everything to do anew.
      await writeFile(join(folder, 'brand.yaml'), brand(`Creator ${turn++}`))
      return wrong
    },
  })
  expect(findings).toEqual([])
  expect(killed).toBeGreaterThan(KILLS / 2)
  const { code: last, stderr } = await runCommand(release, args('killed'), { cwd: folder })
  expect({ last, stderr }).toEqual({ last: 0, stderr: '' })
  expect(await filesBelow(join(folder, 'killed'))).toHaveLength(2 * MASTERS)
  expect(await wrongIn('killed')).toEqual([])
  const left = (await readdir(folder)).filter((name) => name.startsWith('.killed'))
  expect(left).toEqual([])
})

test('two runs at once: one makes everything, the other waits its turn or finds it done', async () => {
  const runs = await Promise.all([1, 2].map(() => runCommand(release, args('twice'), { cwd: folder })))
  expect(runs.map(({ code }) => code)).toContain(0)
  for (const { code, stderr } of runs.filter((run) => run.code !== 0)) {
    expect(stderr).toMatch(
      /^Another run \(process \d+\) is preparing twice\. Wait until it has ended, and run again\.\n$/,
    )
    expect(code).toBe(2)
  }
  const made = runs.filter(({ code }) => code === 0).map(({ stdout }): Prepared => JSON.parse(stdout))
  const now = made.flatMap(({ files }) => files.filter((file) => file.made === 'now').map(({ file }) => file))
  expect(now).toHaveLength(2 * MASTERS)
  expect(new Set(now).size).toBe(now.length)
  expect(await wrongIn('twice')).toEqual([])
})

describe('a full disk', () => {
  test('a sentence and exit code 2; what was there is as it was', async () => {
    const disk = join(folder, 'disk')
    await mkdir(disk)
    if (!mounted(disk, '256k')) return
    try {
      const { code, stderr } = await runCommand(release, args('disk/delivery'), { cwd: folder })
      expect({ code, stderr }).toEqual({
        code: 2,
        stderr:
          'The disk is full; every file of the delivery is whole. Free some space or name another folder, and run again.\n',
      })
      expect(await readdir(disk)).toEqual([])
      expect(await wrongIn('disk/delivery')).toEqual([])
    } finally {
      execFileSync('umount', [disk])
    }
  })
})
