import { chmod, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import { recordingHost } from './host.ts'

const GOOD = 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg'
let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'measuring-'))
  await mkdir(join(folder, 'delivery'))
  const good = await readFile(GOOD)
  await writeFile(join(folder, 'delivery', 'good.jpg'), good)
  await writeFile(join(folder, 'delivery', 'cut.jpg'), good.subarray(0, 20_000))
  await writeFile(
    join(folder, 'brand.yaml'),
    'brand: Osprey Lane\nversion: 1\nheadroom: { min: 3, max: 11 }\n',
  )
})
afterAll(() => rm(folder, { recursive: true }))

async function transcript(argv: readonly string[], userCache?: string) {
  const { host, stdout, stderr } = recordingHost(folder, userCache === undefined ? {} : { userCache })
  return { code: await run(argv, host), stdout: stdout(), stderr: stderr() }
}
const check = (options: readonly string[], userCache?: string) =>
  transcript(['check', 'delivery', '--format', 'csv', ...options], userCache)
const kept = async (name: string) =>
  (await readdir(join(folder, name), { recursive: true, withFileTypes: true })).filter((one) => one.isFile())

test('whatever is known, the report is the same; a changed spec is heeded', async () => {
  const home = join(folder, 'home')
  const plain = await check([])
  expect(plain.code).toBe(1)
  for (const options of [[], [], ['--rehash'], ['--no-cache']])
    expect(await check(options, home)).toEqual(plain)
  expect(await kept('home/entries')).toHaveLength(2)
  const other = join(folder, 'other.yaml')
  await writeFile(other, 'brand: Osprey Lane\nversion: 1\nheadroom: { min: 20, max: 25 }\n')
  const changed = await check(['--spec', 'other.yaml'], home)
  expect(changed).toEqual(await check(['--spec', 'other.yaml', '--no-cache']))
  expect(changed.stdout).not.toBe(plain.stdout)
})

test('--cache keeps entries in the folder given, and none of the sitters is named in it', async () => {
  await check(['--cache', 'given'], join(folder, 'other-home'))
  const files = await kept('given')
  expect(files).toHaveLength(2)
  for (const { parentPath, name } of files) {
    const content = await readFile(join(parentPath, name))
    for (const word of ['good', 'Nair', 'Priya', 'headroom']) expect(content.includes(word)).toBe(false)
  }
  expect(await readdir(join(folder, 'other-home')).catch(() => [])).not.toContain('entries')
})

test('--no-cache keeps nothing', async () => {
  await check(['--no-cache'], join(folder, 'untouched'))
  expect(await readdir(join(folder, 'untouched')).catch(() => null)).toBeNull()
})

test('a folder that is none is refused with a sentence', async () => {
  expect(await check(['--cache', 'brand.yaml'])).toEqual({
    code: 2,
    stdout: '',
    stderr:
      "The --cache folder brand.yaml can't be written to (EEXIST). Name another, or leave the option out.\n",
  })
})

test("a cache folder of the user's that can't be written to is no trouble", async () => {
  const home = join(folder, 'locked')
  await mkdir(home)
  await writeFile(join(home, 'entries'), 'a file where a folder should be')
  await chmod(home, 0o500)
  expect(await check([], home)).toEqual(await check([]))
})
