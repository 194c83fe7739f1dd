import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { hashedToCompare } from '../../src/checking/compared-content.ts'
import { measure } from '../../src/measure/measure.ts'

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'compared-'))
  for (const [name, text] of Object.entries({ a: 'one', b: 'two', c: 'three' }))
    await writeFile(join(folder, name), text)
})
afterAll(() => rm(folder, { recursive: true }))

test('only files of the same size are hashed to be compared, and one that is gone is left to be told', async () => {
  const sources = hashedToCompare(['a', 'b', 'c', 'gone'].map((file) => ({ file, path: join(folder, file) })))
  expect(sources.map(({ isUnlikeOthers = false }) => isUnlikeOthers)).toEqual([false, false, true, false])
  const measured = await Promise.all(sources.map((source) => measure(source, ['checksum'])))
  // Of "one" and "two": what sha256sum of GNU coreutils prints.
  expect(measured.map(({ sha256 }) => sha256?.slice(0, 8) ?? null)).toEqual([
    '7692c3ad',
    '3fc4ccfe',
    null,
    null,
  ])
})
