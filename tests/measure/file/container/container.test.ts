import sharp, { type Sharp } from 'sharp'
import { describe, expect, test } from 'vitest'
import { readContainer } from '../../../../src/measure/file/container/container.ts'
import { DECODABLE, type Decodable } from '../../../../src/measure/schema/formats.ts'
import { seeded } from '../../../random.ts'
import { noise, patched, plain } from '../../samples.ts'
import { segment, withSegments } from '../bytes/jpeg-writer.ts'
import { chunk, physical, withChunks } from '../bytes/png-writer.ts'
import { exifSegment, short, writeExif } from '../exif/exif-writer.ts'

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

test('a JPEG within which another begins is damaged, whole as both may be', async () => {
  const [first, second] = await Promise.all([64, 32].map((size) => noise(size, size).jpeg().toBuffer()))
  if (!first || !second) throw new Error('There are two pictures.')
  const nested = Buffer.concat([first.subarray(0, -2), second])
  expect(readContainer('jpeg', nested).damage).toBe('another picture begins before the end of this one')
  // The decoder does not mind, and shows the first.
  expect(
    (await sharp(nested, { failOn: 'warning' }).raw().toBuffer({ resolveWithObject: true })).info.width,
  ).toBe(64)
  expect(readContainer('jpeg', Buffer.concat([first, second])).damage).toBeNull()
})

describe('orientations on which readers disagree', () => {
  const stating = (...values: readonly number[]) =>
    writeExif({ main: values.map((value) => short(0x112, value)) })
  const jpeg = async (...blocks: readonly Buffer[]) =>
    withSegments(
      await noise(64, 80).jpeg().toBuffer(),
      blocks.map((tiff) => segment(0xe1, exifSegment(tiff))),
    )
  const png = async (...blocks: readonly Buffer[]) =>
    withChunks(
      await noise(64, 80).png().toBuffer(),
      blocks.map((tiff) => chunk('eXIf', tiff)),
    )
  async function webp(announced: boolean, block: Buffer) {
    const whole = await noise(64, 80)
      .withExif({ IFD0: { Orientation: '1' } })
      .webp()
      .toBuffer()
    const size = Buffer.alloc(4)
    size.writeUInt32LE(block.length)
    const at = whole.indexOf('EXIF')
    const changed = Buffer.concat([whole.subarray(0, at + 4), size, block, Buffer.alloc(block.length % 2)])
    changed.writeUInt32LE(changed.length - 8, 4)
    changed[20] = announced ? 0x08 : 0
    return changed
  }

  test.each([
    ['two blocks of a JPEG', 'jpeg', () => jpeg(stating(1), stating(6)), true],
    ['two of which one says nothing', 'jpeg', () => jpeg(writeExif({}), stating(6)), true],
    ['a tag that stands twice', 'jpeg', () => jpeg(stating(1, 6)), true],
    ['two chunks of a PNG', 'png', () => png(stating(1), stating(6)), true],
    ['a block that a WebP does not announce', 'webp', () => webp(false, stating(6)), true],
    ['two that agree', 'jpeg', () => jpeg(stating(6), stating(6)), false],
    ['one', 'jpeg', () => jpeg(stating(6)), false],
    ['one of a WebP', 'webp', () => webp(true, stating(6)), false],
    ['an upright one that a WebP does not announce', 'webp', () => webp(false, stating(1)), false],
  ] as const)('%s', async (_, format, make, disagree) => {
    const { damage } = readContainer(format, await make())
    expect(damage).toBe(disagree ? 'its Exif blocks state different orientations' : null)
  })
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
