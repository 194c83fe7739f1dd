import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readSourceText } from '../../src/files/source-text.ts'

let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'source-text-'))
})
afterAll(() => rm(folder, { recursive: true }))

async function read(bytes: Buffer | string) {
  const path = join(folder, 'staff.csv')
  await writeFile(path, bytes)
  return readSourceText(path)
}

test('UTF-8 with and without a byte order mark', async () => {
  expect(await read('family\nBergström\n')).toEqual({ text: 'family\nBergström\n' })
  expect(await read(Buffer.from('\uFEFFfamily\nBergström\n'))).toEqual({ text: 'family\nBergström\n' })
})

// The marks by The Unicode Standard 15.0, table 2-4.
test.each([
  ['little-endian, marked', Buffer.from('\uFEFFfamily\nLund\n', 'utf16le')],
  ['big-endian, marked', Buffer.from('\uFEFFfamily\nLund\n', 'utf16le').swap16()],
  ['without a mark', Buffer.from('family\nLund\n', 'utf16le')],
])('UTF-16 is refused: %s', async (_, bytes) => {
  expect(await read(bytes)).toMatchObject({ problem: expect.stringContaining('UTF-16') })
})

test('an older encoding is refused: its accents are no UTF-8', async () => {
  expect(await read(Buffer.from('family\nBergström\n', 'latin1'))).toMatchObject({
    problem: expect.stringContaining('not in UTF-8'),
  })
})

test('what is not there, no file, or too large', async () => {
  expect(await readSourceText(join(folder, 'none.csv'))).toEqual({ problem: 'is not there. Check its path.' })
  expect(await readSourceText(folder)).toMatchObject({
    problem: expect.stringContaining('could not be read'),
  })
  expect(await read(Buffer.alloc(4 * 1024 * 1024 + 1, 'a'))).toMatchObject({
    problem: expect.stringContaining('it may have 4096'),
  })
})
