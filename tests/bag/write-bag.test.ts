import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { folderSink } from '../../src/bag/folder-sink.ts'
import { validateBag } from '../../src/bag/validate.ts'
import { ChangedMeanwhile, writeBag } from '../../src/bag/write-bag.ts'

const signal = new AbortController().signal
// SHA-256 of "abc" (FIPS 180-4, example B.1 of FIPS 180-2).
const ABC = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'write-bag-'))
  writeFileSync(join(folder, 'abc'), 'abc')
})

async function written(name: string, file: string, sha256: string | null, bytes = 3) {
  const bag = join(folder, name)
  mkdirSync(bag)
  const payload = [{ file, path: join(folder, 'abc'), bytes, sha256 }]
  await writeBag({ payload, tags: new Map(), info: [], sign: null }, folderSink(bag), signal)
  return bag
}

test('names are in NFC, and percent signs and line breaks are encoded in lists', async () => {
  const bag = await written('names', 'Nu\u0301n\u0303ez 100%\n.jpg', ABC)
  expect(readFileSync(join(bag, 'manifest-sha256.txt'), 'utf8')).toBe(`${ABC}  data/Núñez 100%25%0A.jpg\n`)
  expect(await validateBag(bag, signal)).toMatchObject({ valid: true, warnings: [] })
})

test.each([
  ['is another one', 'f'.repeat(64), 3],
  ['has grown', ABC, 2],
  ['was cut off', null, 4],
])('a file that %s since it was judged is not packed', async (name, sha256, bytes) => {
  await expect(written(name, 'a.jpg', sha256, bytes)).rejects.toThrow(ChangedMeanwhile)
})
