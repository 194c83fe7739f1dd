import { mkdir, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { startEarly } from '../../src/commands/start-early.ts'
import { recordingHost } from './host.ts'

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'early-'))
  await mkdir(join(folder, 'user', 'entries'), { recursive: true })
})
afterAll(() => rm(folder, { recursive: true }))

test.each([
  ['for help', ['--help'], 2],
  ['where the cache that is named is there', ['--cache', 'user'], 2],
  ['where it is named in one word', ['--cache=user'], 2],
  ["where the user's own cache is there", [], 2],
  ['without threads', ['--no-cache'], 0],
])('no worker is started early %s', async (_, args, workers) => {
  const { host } = recordingHost(folder, { userCache: join(folder, 'user') })
  expect(await startEarly(args, { ...host, workers })).toBeNull()
})
