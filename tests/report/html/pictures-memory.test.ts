import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp, { type SharpOptions } from 'sharp'
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest'
import { measureFile, readHashed } from '../../../src/measure/file/read-file.ts'
import { reportOn } from '../../judge/sample.ts'
import { chunk, withChunks } from '../../measure/file/bytes/png-writer.ts'

/** What was decoded; asking for a header is not. */
const opened: Buffer[] = []
let flying = 0
let most = 0
let makePictures: typeof import('../../../src/report/html/pictures.ts').makePictures
// Test files share loaded modules: what counts here is loaded anew, and so is what comes after it.
beforeAll(async () => {
  vi.resetModules()
  vi.doMock('../../../src/measure/file/decoder.ts', async () => {
    const { decoder } = await vi.importActual<typeof import('../../../src/measure/file/decoder.ts')>(
      '../../../src/measure/file/decoder.ts',
    )
    return {
      decoder(content: Buffer, options: SharpOptions) {
        const picture = decoder(content, options)
        if (options.raw) return picture
        const toBuffer = picture.toBuffer.bind(picture)
        const counted = async (asked: { resolveWithObject: true }) => {
          opened.push(content)
          most = Math.max(most, ++flying)
          return toBuffer(asked).finally(() => flying--)
        }
        return Object.assign(picture, { toBuffer: counted })
      },
    }
  })
  makePictures = (await import('../../../src/report/html/pictures.ts')).makePictures
})
afterAll(() => {
  vi.doUnmock('../../../src/measure/file/decoder.ts')
  vi.resetModules()
})

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'pictures-memory-'))
})
afterAll(() => rm(folder, { recursive: true }))
afterEach(() => {
  opened.splice(0)
  most = 0
})

/** A small interlaced PNG whose header states an edge, so that decoding it takes six bytes for each pixel. */
async function stating(edge: number): Promise<Buffer> {
  const png = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#cba' } })
    .png({ progressive: true })
    .toBuffer()
  const header = Buffer.from(png.subarray(16, 29))
  header.writeUInt32BE(edge, 0)
  header.writeUInt32BE(edge, 4)
  return Buffer.concat([png.subarray(0, 8), chunk('IHDR', header), png.subarray(33)])
}

/** Which files have a picture, of files that are judged by their headers alone. */
async function made(contents: Readonly<Record<string, Buffer>>): Promise<string[]> {
  const files = Object.keys(contents)
  const sources = files.map((file) => ({ file, path: join(folder, file) }))
  const delivered = []
  for (const { file, path } of sources) {
    await writeFile(path, contents[file] as Buffer)
    const { measurements } = await measureFile(file, await readHashed(path), { decode: false })
    expect(measurements.fault).toBeNull()
    delivered.push({ file, measured: measurements })
  }
  const pictures = await makePictures(reportOn(delivered), sources, new AbortController().signal)
  return [...pictures.keys()].sort()
}

test('what takes more memory to decode than a picture may take is not decoded for the page either', async () => {
  expect(await made({ 'huge.png': await stating(12_600), 'small.png': await stating(8) })).toEqual([
    'small.png',
  ])
  expect(opened).toHaveLength(1)
})

test('several are decoded at a time, large ones alone', async () => {
  const small = await stating(8)
  await made({ 'a.png': small, 'b.png': small, 'c.png': small })
  expect(most).toBeGreaterThan(1)
  most = 0
  const large = await stating(7000)
  await made({ 'a.png': large, 'b.png': large, 'c.png': large })
  expect(opened).toHaveLength(6)
  expect(most).toBe(1)
})

test('the decoder gets a PNG without its packed texts', async () => {
  const content = withChunks(await stating(8), [chunk('zTXt', Buffer.from('Comment\0\0x'))])
  expect(content.includes('zTXt')).toBe(true)
  await made({ 'texts.png': content })
  expect(opened.map((one) => one.includes('zTXt'))).toEqual([false])
})

test('a picture is decoded once, however busy it is', async () => {
  const noise = { type: 'gaussian', mean: 128, sigma: 60 } as const
  await sharp({ create: { width: 900, height: 900, channels: 3, background: '#808080', noise } })
    .jpeg()
    .toFile(join(folder, 'noise.jpg'))
  await made({ 'noise.jpg': await readFile(join(folder, 'noise.jpg')) })
  expect(opened).toHaveLength(1)
})
