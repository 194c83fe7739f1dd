import { renameSync } from 'node:fs'
import { mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { claim, release } from '../../../src/prepare/ledger/claim.js'

let above: string
let folder: string
beforeEach(async () => {
  above = await mkdtemp(join(tmpdir(), 'claim-'))
  folder = join(above, '.delivery-being-prepared')
})
afterEach(() => rm(above, { recursive: true, force: true }))

const OWN = 41
const OTHER = 42
const running = (...ids: number[]) => ({ own: OWN, isRunning: (id: number) => ids.includes(id) })
const ownerFile = (id: string | number) => `${id}-0123abcd.owner`

async function leave(path: string, owner: string | null): Promise<void> {
  await mkdir(path)
  await writeFile(join(path, 'half.jpg'), 'half')
  if (owner !== null) await writeFile(join(path, ownerFile(owner)), '')
}

const CASES = [
  { left: 'nothing', owner: undefined, busy: null },
  { left: 'the folder of a run that has ended', owner: String(OTHER), busy: null },
  { left: 'a folder without an owner', owner: null, busy: null },
  { left: 'a folder whose owner has no number', owner: '', busy: null },
  { left: 'the folder of an earlier run with our number', owner: String(OWN), busy: null },
]

test.each(CASES)('where $left is, the folder is ours and empty', async ({ owner, busy }) => {
  if (owner !== undefined) await leave(folder, owner)
  expect(await claim(folder, running(OWN))).toBe(busy)
  expect(await readdir(folder)).toEqual([expect.stringMatching(new RegExp(`^${OWN}-[0-9a-f]{8}\\.owner$`))])
  expect(await readdir(above)).toHaveLength(1)
  await release(folder, running(OWN))
  expect(await readdir(above)).toEqual([])
})

test('a running process keeps its folder', async () => {
  await leave(folder, String(OTHER))
  expect(await claim(folder, running(OWN, OTHER))).toBe(OTHER)
  expect(await readdir(folder)).toContain('half.jpg')
  expect(await readdir(above)).toHaveLength(1)
})

test('of two that find it abandoned, the later one does not take the fresh claim of the other', async () => {
  await leave(folder, String(OTHER))
  const taken = ownerFile(43)
  const late = {
    own: OWN,
    isRunning(id: number) {
      // Just now, another run has found the same and been quicker.
      if (id === OTHER) renameSync(join(folder, ownerFile(OTHER)), join(folder, taken))
      return id === 43
    },
  }
  expect(await claim(folder, late)).toBe(43)
  expect((await readdir(folder)).sort()).toEqual([taken, 'half.jpg'].sort())
  expect(await readdir(above)).toHaveLength(1)
})
