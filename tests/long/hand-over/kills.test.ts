import { mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { unpackZip } from '../../../src/archive/unpack.ts'
import { contentOf } from '../../../src/bag/bag-folder.ts'
import { validateBag } from '../../../src/bag/validate.ts'
import { released } from '../../package/released.ts'
import { seeded } from '../../random.ts'
import { runCommand } from '../fuzz/command.ts'
import { killAtRandom, runWhole } from '../fuzz/kills.ts'

/** More by hand: KILLS=50 npm run test:long tests/long/hand-over/kills.test.ts */
const KILLS = Number(process.env.KILLS ?? 3)

const SPEC = `brand: Osprey Lane Veterinary Group
version: 1
naming: { pattern: "{staff-id}.png" }
one-face: false
pixel-size: { width: 600, height: 750 }
`

let release = ''
let folder = ''
const { signal } = new AbortController()

beforeAll(async () => {
  release = await released()
  folder = await mkdtemp(join(tmpdir(), 'sealed-kills-'))
  await mkdir(join(folder, 'studio', 'delivery'), { recursive: true })
  await mkdir(join(folder, 'client'))
  await writeFile(join(folder, 'studio', 'brand.yaml'), SPEC)
  const random = seeded(7)
  for (let n = 0; n < 2; n++) {
    // Noise, so that the files are large.
    const pixels = Uint8Array.from({ length: 600 * 750 * 3 }, () => 256 * random())
    await sharp(pixels, { raw: { width: 600, height: 750, channels: 3 } })
      .png()
      .toFile(join(folder, 'studio', 'delivery', `${n}.png`))
  }
})
afterAll(() => rm(folder, { recursive: true, force: true }))

/** What is wrong with a bag that took its place. */
async function wrongWith(bag: string): Promise<string[]> {
  const { valid, problems } = await validateBag(bag, signal)
  return valid ? [] : problems.map(({ file, message }) => `${file}: ${message}`)
}

const asides = async (place: string) => (await readdir(place)).filter((name) => name.startsWith('.'))

const CASES = [
  {
    command: 'seal',
    place: 'studio',
    args: ['seal', 'delivery', '--output', 'sealed.zip', '--no-cache'],
    made: 'sealed.zip',
    code: 0,
    async look(made: string) {
      const unpacked = join(folder, 'looked-at')
      await unpackZip(made, unpacked, signal)
      const { bag } = await contentOf(unpacked)
      const wrong = bag === null ? ['it is no bag'] : await wrongWith(bag)
      await rm(unpacked, { recursive: true })
      return wrong
    },
  },
  {
    command: 'receive',
    place: 'client',
    args: ['receive', '../studio/sealed.zip', '--output', 'received'],
    made: 'received',
    // Nothing is judged without a spec of one's own.
    code: 2,
    look: wrongWith,
  },
]

test.each(CASES)('$command: what kills leave is whole or gone after the next run', async (one) => {
  const cwd = join(folder, one.place)
  const made = join(cwd, one.made)
  const victim = { program: process.execPath, args: [join(release, 'bundle', 'start.cjs'), ...one.args], cwd }
  const { code, ms } = await runWhole(victim)
  expect(code).toBe(one.code)
  const inspect = async () => {
    const isMade = (await readdir(cwd)).includes(one.made)
    const wrong = isMade ? await one.look(made) : []
    await rm(made, { recursive: true, force: true })
    // A run removes what the one before left, so that there is never more than one.
    const left = await asides(cwd)
    return [...wrong, ...(left.length > 1 ? [`left: ${left.join(', ')}`] : [])]
  }
  expect(await inspect()).toEqual([])
  const written = [{ folder: cwd, forMs: ms / 4 }]
  const { findings, killed } = await killAtRandom({
    ...{ victim, times: KILLS, random: seeded(5), wholeMs: ms, written, inspect },
  })
  expect(findings).toEqual([])
  expect(killed).toBe(KILLS)
  await runCommand(release, one.args, { cwd })
  expect(await one.look(made)).toEqual([])
  expect(await asides(cwd)).toEqual([])
})
