import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { looksAtPixels, startEarly } from '../../src/commands/start-early.ts'
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

test.each([
  ['no picture', 'intact: false\none-face: false\n', false],
  ['a face', 'intact: false\none-face: true\n', true],
  ['a whole picture', 'one-face: false\n', true],
  ['both in a deliverable alone', 'deliverables:\n  web:\n    intact: false\n    one-face: false\n', true],
])('what looks at pixels is loaded early for a spec that asks for %s', async (_, text, looks) => {
  await writeFile(join(folder, 'brand.yaml'), text)
  await writeFile(join(folder, 'other.yaml'), text)
  expect(looksAtPixels([], { cwd: folder })).toBe(looks)
  expect(looksAtPixels(['--spec', 'other.yaml'], { cwd: folder })).toBe(looks)
  expect(looksAtPixels(['--spec=other.yaml'], { cwd: folder })).toBe(looks)
  expect(looksAtPixels(['--spec', 'missing.yaml'], { cwd: folder })).toBe(true)
})
