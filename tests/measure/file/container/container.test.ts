import type { Sharp } from 'sharp'
import { describe, expect, test } from 'vitest'
import { readContainer } from '../../../../src/measure/file/container/container.ts'
import { DECODABLE, type Decodable } from '../../../../src/measure/schema/formats.ts'
import { seeded } from '../../../random.ts'
import { noise, patched, plain } from '../../samples.ts'
import { segment } from '../bytes/jpeg-writer.ts'
import { physical, withChunks } from '../bytes/png-writer.ts'

const ENCODERS: Readonly<Record<Decodable, (picture: Sharp) => Sharp>> = {
  jpeg: (picture) => picture.jpeg(),
  png: (picture) => picture.png(),
  tiff: (picture) => picture.tiff(),
  webp: (picture) => picture.webp(),
  avif: (picture) => picture.avif(),
}

describe.each(DECODABLE)('%s', (format) => {
  const encoded = () => ENCODERS[format](noise(64, 80)).toBuffer()

  test('a whole file does not end early, nor one with a trailer', async () => {
    const whole = await encoded()
    expect(readContainer(format, whole).endsEarly).toBe(false)
    expect(readContainer(format, Buffer.concat([whole, Buffer.alloc(500, 'A')])).endsEarly).toBe(false)
  })

  test.each([0.95, 0.5, 0.3])('cut to %f of its length it does', async (share) => {
    const whole = await encoded()
    expect(readContainer(format, whole.subarray(0, whole.length * share)).endsEarly).toBe(true)
  })

  test('200 times some bytes changed: never an exception', async () => {
    const whole = await encoded()
    const random = seeded(format.length)
    const below = (limit: number) => Math.floor(random() * limit)
    for (let n = 0; n < 200; n++) {
      const changed = patched(whole, (copy) => {
        for (let k = 0; k < 5; k++) copy.writeUInt8(below(256), below(Math.min(copy.length, 400)))
      })
      expect(readContainer(format, changed).endsEarly).toBeTypeOf('boolean')
    }
  })
})

test('a JPEG states its compression, its bits and its profile', async () => {
  const jpeg = await plain([200, 150, 120]).withIccProfile('srgb').jpeg({ quality: 90 }).toBuffer()
  const { jpeg: facts, bitsPerChannel, icc, excess } = readContainer('jpeg', jpeg)
  expect(facts?.quality).toBe(90)
  expect(bitsPerChannel).toBe(8)
  expect(Buffer.isBuffer(icc)).toBe(true)
  expect(excess).toBeNull()
})

test('more chunks or boxes than a picture can need are too much', async () => {
  const webp = Buffer.concat([
    await noise(64, 80).webp().toBuffer(),
    Buffer.from('junk\0\0\0\0'.repeat(6000)),
  ])
  webp.writeUInt32LE(webp.length - 8, 4)
  expect(readContainer('webp', webp).excess).toMatch(/^600\d chunks; the limit is 5000$/)
  const free = Buffer.from('\0\0\0\x08free'.repeat(10_000), 'latin1')
  const avif = Buffer.concat([await noise(64, 80).avif().toBuffer(), free])
  expect(readContainer('avif', avif).excess).toBe('10000 boxes or more; the limit is 9999')
  for (const format of DECODABLE) {
    expect(readContainer(format, await ENCODERS[format](noise(64, 80)).toBuffer()).excess).toBeNull()
  }
})

test('more than 100 scans are too much', async () => {
  const jpeg = await plain([200, 150, 120]).jpeg().toBuffer()
  const scan = segment(0xda, Buffer.from([1, 1, 0, 0, 0, 0]))
  const scans = (count: number) =>
    readContainer(
      'jpeg',
      Buffer.concat([jpeg.subarray(0, -2), ...Array<Buffer>(count).fill(scan), jpeg.subarray(-2)]),
    )
  expect(scans(99).excess).toBeNull()
  expect(scans(100).excess).toBe('101 scans; the limit is 100')
})

test('a PNG states its resolution', async () => {
  const png = withChunks(await plain([200, 150, 120]).png().toBuffer(), [physical(11811, 11811, 1)])
  expect(readContainer('png', png).ppi).toBe(300)
})

test('a WebP is held to the size in its head, to the byte', () => {
  const webp = (size: number) =>
    Buffer.from(`RIFF${String.fromCharCode(size)}\0\0\0WEBPVP8 \x02\0\0\0XY`, 'latin1')
  expect(readContainer('webp', webp(14)).endsEarly).toBe(false)
  expect(readContainer('webp', webp(15)).endsEarly).toBe(true)
  expect(readContainer('webp', webp(14).subarray(0, 7)).endsEarly).toBe(true)
})
