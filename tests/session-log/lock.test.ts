import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { takeSession } from '../../src/session-log/lock.ts'

let folder: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'portrait-gate-lock-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

it('lets one process at a time have a session', async () => {
  const release = await takeSession(folder)
  expect(release).not.toBeNull()
  expect(await takeSession(folder)).toBeNull()
  await release?.()
  const again = await takeSession(folder)
  expect(again).not.toBeNull()
  await again?.()
})
