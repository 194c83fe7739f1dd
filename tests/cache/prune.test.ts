import { mkdtemp, readdir, rm, utimes, writeFile } from 'node:fs/promises'
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

test('the oldest go when there are too many, with some room to spare', async () => {
  for (let i = 1; i <= 20; i++) await put(`entry-${i}`, i)
  await prune(folder, 20)
  expect(await readdir(folder)).toHaveLength(20)
  await put('entry-0', 0)
  await prune(folder, 20)
  const left = await readdir(folder)
  expect(left).toHaveLength(18)
  expect(left).toContain('entry-0')
  expect(left).not.toContain('entry-20')
})

test('parts that a kill left go after an hour, those of a run that goes on stay', async () => {
  await put('a.1234.part', 2)
  await put('b.5678.part', 0.1)
  await put('entry', 5)
  await prune(folder, 20)
  expect((await readdir(folder)).sort()).toEqual(['b.5678.part', 'entry'])
})
