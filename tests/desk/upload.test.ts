import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { Upload } from '../../src/desk/upload.ts'

let base: string
let upload: Upload
beforeEach(async () => {
  base = await mkdtemp(join(tmpdir(), 'upload-'))
  upload = new Upload(join(base, 'own'))
})
afterEach(() => rm(base, { recursive: true, force: true }))

async function* sent(...chunks: readonly string[]): AsyncGenerator<Buffer> {
  for (const chunk of chunks) yield Buffer.from(chunk)
}
const put = (path: string, text = 'x', bytes: number | null = text.length) =>
  upload.put(path, { bytes, stream: sent(text) })

test('files are written as they were sent, in their folders', async () => {
  expect(await upload.put('print/Lund-Bjørn.jpg', { bytes: 8, stream: sent('por', 'trait') })).toBe(null)
  expect(await readFile(join(base, 'own/print/Lund-Bjørn.jpg'), 'utf8')).toBe('portrait')
  expect([upload.files, upload.bytes]).toEqual([1, 8])
})

test.each([
  ['../out.jpg', 'would go out of the folder'],
  ['a/../../out.jpg', 'would go out of the folder'],
  ['/etc/out.jpg', 'would go to the root of a disk'],
  ['C:/out.jpg', 'would go to the root of a disk'],
  ['..\\out.jpg', 'has a backslash'],
  ['a//b.jpg', 'has an empty part'],
  ['./b.jpg', 'has an empty part'],
  ['', 'without a name'],
  ['a\0.jpg', 'has a NUL'],
  ['con.jpg', 'Windows refuses'],
  ['start.bat', 'a program or what starts one'],
])('%j is refused, and nothing is written', async (path, why) => {
  expect(await put(path)).toContain(why)
  expect(await readdir(base)).toEqual([])
})

test('names that one system takes for another are refused', async () => {
  expect(await put('Lund.jpg')).toBe(null)
  expect(await put('LUND.JPG')).toContain('one would overwrite the other')
  expect(await put('Lund.jpg')).toContain('twice')
  expect(await put('Lund.jpg/inside.jpg')).toContain('one would overwrite the other')
  expect(await readFile(join(base, 'own/Lund.jpg'), 'utf8')).toBe('x')
})

test('what is shorter or longer than it says is cut off', async () => {
  expect(await put('short.jpg', 'abc', 4)).toBe('was cut off at "short.jpg"')
  expect(await put('long.jpg', 'abc', 2)).toBe('was cut off at "long.jpg"')
  expect(await put('no-size.jpg', 'abc', null)).toContain('sent without its size')
})

test('too much is refused before it is read', async () => {
  async function* never(): AsyncGenerator<Buffer> {
    yield* sent()
    throw new Error('It was read.')
  }
  expect(await upload.put('huge.tif', { bytes: 33 * 1024 ** 3, stream: never() })).toBe(
    'holds more than 32 GiB',
  )
})

test('a program under the name of a picture is refused', async () => {
  expect(await put('portrait.jpg', `\x7fELF${' '.repeat(80)}`)).toContain(
    'is a program whatever its name says',
  )
})
