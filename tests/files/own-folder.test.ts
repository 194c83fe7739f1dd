import { mkdir, mkdtemp, readdir, rm, stat, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { makeOwnFolder } from '../../src/files/own-folder.ts'

let near: string
beforeEach(async () => {
  near = await mkdtemp(join(tmpdir(), 'own-'))
})
afterEach(() => rm(near, { recursive: true, force: true }))

const OWN = 41
const STOPPED = 42
const RUNNING = 44
const processes = { own: OWN, isRunning: (id: number) => id === RUNNING }

/** What a process that was killed leaves. */
async function leave(start: string, own: number): Promise<string> {
  const { path, remove } = await makeOwnFolder(near, start, { own, isRunning: () => true })
  await remove()
  await mkdir(path)
  await writeFile(join(path, 'half.jpg'), 'half')
  return basename(path)
}

test('what stopped runs left is removed; what running ones, others, other machines and the user have stays', async () => {
  const other = await leave('.other-', STOPPED)
  const running = await leave('.mine-', RUNNING)
  const stopped = await leave('.mine-', STOPPED)
  const alike = await leave('.mine-', OWN)
  const elsewhere = stopped.replace(/-[0-9a-f]{8}-/, '-00000000-')
  const own = ['.mine-old', '.mine-42', `x${stopped}`, elsewhere]
  for (const name of own) await mkdir(join(near, name))
  const { path, remove } = await makeOwnFolder(near, '.mine-', processes)
  const left = await readdir(near)
  expect(left).not.toContain(stopped)
  expect(left).not.toContain(alike)
  expect(left.sort()).toEqual([other, running, basename(path), ...own].sort())
  await remove()
  expect(await readdir(near)).not.toContain(basename(path))
})

test('a process that works in two keeps both, and nobody else may look into them', async () => {
  const [first, second] = [
    await makeOwnFolder(near, '.mine-', processes),
    await makeOwnFolder(near, '.mine-', processes),
  ]
  expect((await readdir(near)).sort()).toEqual([first, second].map(({ path }) => basename(path)).sort())
  expect((await stat(first.path)).mode & 0o077).toBe(0)
})
