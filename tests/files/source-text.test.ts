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
test('UTF-16 with a mark is read; without one it is refused', async () => {
  const text = 'family\nBergström\n'
  const little = Buffer.from(`\uFEFF${text}`, 'utf16le')
  expect(await read(little)).toEqual({ text })
  expect(await read(Buffer.from(little).swap16())).toEqual({ text })
  expect(await read(Buffer.from(text, 'utf16le'))).toMatchObject({
    problem: expect.stringContaining('UTF-16 without a byte order mark'),
  })
})

// The first bytes by PKWARE APPNOTE 4.3.7 and [MS-CFB] 2.2.
test.each([
  ['.xlsx and .ods', [0x50, 0x4b, 0x03, 0x04, 0x14]],
  ['.xls', [0xd0, 0xcf, 0x11, 0xe0, 0xa1]],
])('a workbook is called what it is: %s', async (_, bytes) => {
  expect(await read(Buffer.from(bytes))).toMatchObject({
    problem: expect.stringContaining('save the sheet as "CSV UTF-8"'),
  })
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
    problem: expect.stringContaining('the limit is 4096 KiB'),
  })
})
