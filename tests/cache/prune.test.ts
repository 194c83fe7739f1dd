import { mkdir, mkdtemp, readdir, rm, utimes, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { prune } from '../../src/cache/prune.ts'

let folder = ''
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'prune-'))
})
afterEach(() => rm(folder, { recursive: true }))

async function put(name: string, hoursAgo: number) {
  const at = new Date(Date.now() - hoursAgo * 3_600_000)
  await writeFile(join(folder, name), name)
  await utimes(join(folder, name), at, at)
}
const entry = (n: number) => n.toString(16).padStart(62, '0')

test('the oldest go when there are too many, with some room to spare', async () => {
  for (let i = 1; i <= 20; i++) await put(entry(i), i)
  prune(folder, 20)
  expect(await readdir(folder)).toHaveLength(20)
  await put(entry(0), 0)
  prune(folder, 20)
  const left = await readdir(folder)
  expect(left).toHaveLength(18)
  expect(left).toContain(entry(0))
  expect(left).not.toContain(entry(20))
})

test('parts that a kill left go after an hour, those of a run that goes on stay', async () => {
  await put(`.${entry(1)}.0123456789ab.part`, 2)
  await put(`.${entry(2)}.0123456789ab.part`, 0.1)
  await put(entry(3), 5)
  prune(folder, 20)
  expect((await readdir(folder)).sort()).toEqual([`.${entry(2)}.0123456789ab.part`, entry(3)])
})

test('what the cache has not written stays, and does not count', async () => {
  for (let i = 1; i <= 20; i++) await put(`page-${i}.html`, i)
  await put('film.part', 5)
  await mkdir(join(folder, entry(7)))
  for (let i = 1; i <= 3; i++) await put(entry(10 + i), i)
  prune(folder, 2)
  const left = await readdir(folder)
  expect(left).toHaveLength(23)
  expect(left).not.toContain(entry(13))
})
