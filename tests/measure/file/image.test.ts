import { crc32, deflateSync } from 'node:zlib'
import sharp, { type Sharp } from 'sharp'
import { describe, expect, test } from 'vitest'
import { TooMuchAtOnce } from '../../../src/measure/file/decode-memory.ts'
import { readImage } from '../../../src/measure/file/image.ts'
import { LIMITS } from '../../../src/measure/file/read-file.ts'
import { DECODABLE, type Decodable } from '../../../src/measure/schema/formats.ts'
import { seeded } from '../../random.ts'
import { noise, patched, plain } from '../samples.ts'
import { segment } from './bytes/jpeg-writer.ts'
import { chunk, iccp, withChunks } from './bytes/png-writer.ts'
import { rgbTiff } from './bytes/tiff-writer.ts'

const ENCODERS: Readonly<Record<Decodable, (picture: Sharp) => Sharp>> = {
  jpeg: (picture) => picture.jpeg(),
  png: (picture) => picture.png(),
  tiff: (picture) => picture.tiff({ compression: 'lzw' }),
  webp: (picture) => picture.webp(),
  avif: (picture) => picture.avif(),
}

describe.each(DECODABLE)('%s', (format) => {
  const encoded = () => ENCODERS[format](noise(120, 150)).toBuffer()

  test('whole: decoded to the last row', async () => {
    const { fault, intact, pixels, widthPx, heightPx } = await readImage(await encoded(), format, {
      decode: true,
      limits: LIMITS,
    })
    expect({ fault, intact, widthPx, heightPx }).toEqual({
      fault: null,
      intact: true,
      widthPx: 120,
      heightPx: 150,
    })
    expect(pixels?.data).toHaveLength(120 * 150 * 3)
  })

  test('whole, with a trailer', async () => {
    const content = Buffer.concat([await encoded(), Buffer.alloc(500, 'A')])
    expect(await readImage(content, format, { decode: true, limits: LIMITS })).toMatchObject({
      fault: null,
      intact: true,
    })
  })

  test('not decoded: whether it is intact is not known', async () => {
    const { fault, intact, pixels } = await readImage(await encoded(), format, {
      decode: false,
      limits: LIMITS,
    })
    expect({ fault, intact, pixels }).toEqual({ fault: null, intact: null, pixels: null })
  })

  test.each([0.99, 0.9, 0.6, 0.3, 0.1])('cut to %f of its length: truncated', async (share) => {
    const whole = await encoded()
    const content = whole.subarray(0, Math.floor(whole.length * share))
    for (const decode of [true, false]) {
      const { fault, intact, pixels } = await readImage(content, format, { decode, limits: LIMITS })
      expect({ kind: fault?.kind, intact, pixels }).toEqual({
        kind: 'truncated',
        intact: false,
        pixels: null,
      })
    }
  })

  test('more pixels than the limit: refused by its header', async () => {
    const image = await readImage(await encoded(), format, {
      decode: true,
      limits: { ...LIMITS, pixels: 120 * 150 - 1 },
    })
    expect(image).toMatchObject({ widthPx: 120, heightPx: 150, intact: null, pixels: null })
    expect(image.fault).toEqual({ kind: 'too-large', detail: '120 x 150 px; the limit is 17999 pixels' })
    expect(
      await readImage(await encoded(), format, { decode: true, limits: { ...LIMITS, pixels: 120 * 150 } }),
    ).toMatchObject({ fault: null })
  })

  test('60 times some bytes changed: a picture or a fault, never an exception', async () => {
    const whole = await encoded()
    const random = seeded(format.length + 1)
    const below = (limit: number) => Math.floor(random() * limit)
    for (let n = 0; n < 60; n++) {
      const content = patched(whole, (copy) => {
        for (let k = 0; k < 4; k++) copy.writeUInt8(below(256), below(n % 2 ? copy.length : 300))
      })
      const { fault, intact, pixels } = await readImage(content, format, {
        decode: true,
        limits: { ...LIMITS, pixels: 1_000_000 },
      })
      expect(intact === true).toBe(fault === null)
      expect(pixels !== null).toBe(fault === null)
    }
  })
})

describe('JPEG', () => {
  const whole = () => noise(120, 150).jpeg().toBuffer()
  const SOF = Buffer.from([0xff, 0xc0])
  const kindOf = async (content: Buffer) =>
    (await readImage(content, 'jpeg', { decode: true, limits: LIMITS })).fault?.kind

  test('every length near the end, and some in the middle', async () => {
    const jpeg = await whole()
    for (let missing = 1; missing <= 40; missing++) {
      expect(await kindOf(jpeg.subarray(0, -missing)), `${missing} bytes missing`).toBe('truncated')
    }
  })

  test('rows missing although it ends in order', async () => {
    const jpeg = await whole()
    const rowless = Buffer.concat([jpeg.subarray(0, jpeg.length / 2), Buffer.from([0xff, 0xd9])])
    expect(await kindOf(rowless)).toBe('corrupt')
    const taller = patched(jpeg, (copy) => copy.writeUInt16BE(600, copy.indexOf(SOF) + 5))
    expect(await kindOf(taller)).toBe('corrupt')
  })

  // The library looks for warnings before each strip of eight rows and never after the last one.
  test.each([
    ['4:4:4', () => noise(120, 150).jpeg({ chromaSubsampling: '4:4:4' })],
    ['4:2:0', () => noise(120, 150).jpeg({ chromaSubsampling: '4:2:0' })],
    ['gray', () => noise(120, 150).toColourspace('b-w').jpeg()],
    ['CMYK', () => noise(120, 150).toColourspace('cmyk').jpeg()],
    ['turned', () => noise(120, 150).withMetadata({ orientation: 6 }).jpeg({ chromaSubsampling: '4:4:4' })],
  ] as const)('the last rows missing although it ends in order: %s', async (_, picture) => {
    const jpeg = await picture().toBuffer()
    const whole = await readImage(jpeg, 'jpeg', { decode: true, limits: LIMITS })
    expect(whole.fault).toBeNull()
    expect(whole.pixels?.data).toHaveLength(120 * 150 * 3)
    for (const missing of [40, 150, 400]) {
      const rowless = Buffer.concat([jpeg.subarray(0, -missing), Buffer.from([0xff, 0xd9])])
      expect(await kindOf(rowless), `${missing} bytes`).toBe('corrupt')
    }
  })

  test('read with a strip more, the pixels are those of the library', async () => {
    for (const orientation of [1, 3, 6, 8]) {
      const jpeg = await noise(121, 150)
        .withMetadata({ orientation })
        .jpeg({ chromaSubsampling: '4:4:4' })
        .toBuffer()
      const { pixels, widthPx, heightPx } = await readImage(jpeg, 'jpeg', { decode: true, limits: LIMITS })
      const { data, info } = await sharp(jpeg).autoOrient().raw().toBuffer({ resolveWithObject: true })
      expect([pixels?.width, pixels?.height]).toEqual([info.width, info.height])
      expect([widthPx, heightPx]).toEqual([info.width, info.height])
      expect(pixels?.data.equals(data)).toBe(true)
    }
  })

  test('a block of zeros in the middle, as a bad disk leaves it', async () => {
    const jpeg = await whole()
    const middle = Math.floor(jpeg.length / 2)
    expect(await kindOf(patched(jpeg, (copy) => copy.fill(0, middle, middle + 2048)))).toBe('corrupt')
  })

  test('zeros to the end, as a broken copy leaves it', async () => {
    const jpeg = await whole()
    expect(await kindOf(patched(jpeg, (copy) => copy.fill(0, Math.floor(copy.length * 0.7))))).toBe(
      'truncated',
    )
  })

  test('a second picture behind the first is not a fault, whole or cut short', async () => {
    const jpeg = await whole()
    expect(await kindOf(Buffer.concat([jpeg, jpeg]))).toBeUndefined()
    expect(await kindOf(Buffer.concat([jpeg, jpeg.subarray(0, 900)]))).toBeUndefined()
  })

  test('a header that claims 60,000 x 60,000 pixels', async () => {
    const absurd = patched(await whole(), (copy) => {
      copy.writeUInt16BE(60_000, copy.indexOf(SOF) + 5)
      copy.writeUInt16BE(60_000, copy.indexOf(SOF) + 7)
    })
    expect(await readImage(absurd, 'jpeg', { decode: true, limits: LIMITS })).toMatchObject({
      fault: { kind: 'too-large', detail: '60000 x 60000 px; the limit is 160000000 pixels' },
      intact: null,
      widthPx: 60_000,
    })
  })

  test('hundreds of thousands of segments, of which the decoder would keep each', async () => {
    const jpeg = await whole()
    const empty = Array<Buffer>(200_000).fill(segment(0xe1, Buffer.alloc(0)))
    const content = Buffer.concat([jpeg.subarray(0, 2), ...empty, jpeg.subarray(2)])
    const { fault } = await readImage(content, 'jpeg', { decode: true, limits: LIMITS })
    expect(fault?.kind).toBe('too-large')
    expect(fault?.detail).toMatch(/^200\d{3} segments; the limit is 5000$/)
  })

  test('hundreds of scans', async () => {
    const jpeg = await whole()
    const scans = Array<Buffer>(300).fill(segment(0xda, Buffer.from([1, 1, 0, 0, 0, 0])))
    const { fault } = await readImage(
      Buffer.concat([jpeg.subarray(0, -2), ...scans, jpeg.subarray(-2)]),
      'jpeg',
      { decode: true, limits: LIMITS },
    )
    expect(fault).toEqual({ kind: 'too-large', detail: '301 scans; the limit is 100' })
  })
})

test('a PNG header that claims 60,000 x 60,000 pixels', async () => {
  const absurd = patched(await plain([1, 2, 3]).png().toBuffer(), (copy) => {
    copy.writeUInt32BE(60_000, 16)
    copy.writeUInt32BE(60_000, 20)
  })
  expect((await readImage(absurd, 'png', { decode: true, limits: LIMITS })).fault?.kind).toBe('too-large')
})

test('a PNG whose metadata do not fit their checksum', async () => {
  const png = withChunks(await noise(40, 50).png().toBuffer(), [
    chunk('tEXt', Buffer.from('Author\0Mika Thorne')),
  ])
  const spoiled = patched(png, (copy) => copy.write('X', copy.indexOf('Thorne')))
  expect((await readImage(spoiled, 'png', { decode: true, limits: LIMITS })).fault).toEqual({
    kind: 'corrupt',
    detail: 'the checksum of chunk tEXt does not fit',
  })
})

test('a PNG of two hundred texts that unpack to fifty megabytes each is read without them', async () => {
  const packed = deflateSync(Buffer.alloc(50_000_000))
  const texts = Array.from({ length: 200 }, (_, n) =>
    chunk('zTXt', Buffer.concat([Buffer.from(`k${n}\0\0`), packed])),
  )
  const content = withChunks(await plain([1, 2, 3]).png().toBuffer(), texts)
  const { fault, pixels } = await readImage(content, 'png', { decode: true, limits: LIMITS })
  expect(fault).toBeNull()
  expect([...(pixels?.data.subarray(0, 3) ?? [])]).toEqual([1, 2, 3])
})

test('a PNG whose data is in pieces, with a text between them', async () => {
  const png = await noise(40, 50).png().toBuffer()
  const start = png.indexOf('IDAT') - 4
  const data = png.subarray(start + 8, start + 8 + png.readUInt32BE(start))
  const half = Math.floor(data.length / 2)
  const content = Buffer.concat([
    png.subarray(0, start),
    chunk('IDAT', data.subarray(0, half)),
    chunk('zTXt', Buffer.concat([Buffer.from('k\0\0'), deflateSync(Buffer.from('x'))])),
    chunk('IDAT', data.subarray(half)),
    chunk('IEND', Buffer.alloc(0)),
  ])
  await expect(sharp(content).raw().toBuffer()).rejects.toThrow()
  expect((await readImage(content, 'png', { decode: true, limits: LIMITS })).fault).toEqual({
    kind: 'corrupt',
    detail: 'the picture data is in pieces',
  })
})

test('an AVIF behind an AVIF: of two descriptions each reader takes another', async () => {
  const avif = await noise(64, 48).avif().toBuffer()
  expect(
    (await readImage(Buffer.concat([avif, avif]), 'avif', { decode: true, limits: LIMITS })).fault,
  ).toEqual({
    kind: 'corrupt',
    detail: '2 descriptions (meta boxes) in place of one',
  })
})

test('a PNG with a profile that the decoder does not read is not without a profile', async () => {
  const content = withChunks(await plain([1, 2, 3]).png().toBuffer(), [iccp(Buffer.alloc(100_000_000))])
  expect((await readImage(content, 'png', { decode: true, limits: LIMITS })).color).toEqual({
    space: 'rgb',
    profile: 'other',
    profileName: null,
  })
})

test('a PNG of one row of a hundred million pixels', async () => {
  const absurd = patched(await plain([1, 2, 3]).png().toBuffer(), (copy) => {
    copy.writeUInt32BE(100_000_000, 16)
    copy.writeUInt32BE(1, 20)
    copy.writeUInt32BE(crc32(copy.subarray(12, 29)), 29)
  })
  expect((await readImage(absurd, 'png', { decode: true, limits: LIMITS })).fault).toEqual({
    kind: 'too-large',
    detail: '100000000 x 1 px; the limit of one edge is 65535',
  })
})

test('a PNG of hundreds of thousands of chunks', async () => {
  const png = await plain([1, 2, 3]).png().toBuffer()
  const content = withChunks(png, Array<Buffer>(200_000).fill(chunk('prVt', Buffer.alloc(0))))
  const { fault } = await readImage(content, 'png', { decode: true, limits: LIMITS })
  expect(fault?.kind).toBe('too-large')
  expect(fault?.detail).toMatch(/^20000\d chunks beside the picture's data; the limit is 5000$/)
})

test('a PNG whose data is spoiled, by its checksum', async () => {
  const png = await noise(120, 150).png().toBuffer()
  const spoiled = patched(png, (copy) =>
    copy.writeUInt8((copy[png.length / 2] as number) ^ 0x10, png.length / 2),
  )
  expect((await readImage(spoiled, 'png', { decode: true, limits: LIMITS })).fault?.kind).toBe('corrupt')
})

test('a TIFF whose directory comes first, cut within its pixels', async () => {
  const tiff = rgbTiff(120, 150, 10, Buffer.alloc(120 * 150 * 3, 99))
  expect((await readImage(tiff, 'tiff', { decode: true, limits: LIMITS })).intact).toBe(true)
  expect((await readImage(tiff.subarray(0, -1), 'tiff', { decode: true, limits: LIMITS })).fault?.kind).toBe(
    'truncated',
  )
})

test('a fault is told in one short line', async () => {
  const { fault } = await readImage(Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'), 'png', {
    decode: true,
    limits: LIMITS,
  })
  expect(fault?.detail).toMatch(/^[^\n]{1,200}$/)
})

test('a picture that takes too much memory to decode, at all or just now', async () => {
  const png = await plain([1, 2, 3], 100, 100).png().toBuffer()
  const limits = { ...LIMITS, memory: 29_999 }
  const { fault, widthPx } = await readImage(png, 'png', { decode: true, limits })
  expect({ fault, widthPx }).toEqual({
    fault: {
      kind: 'too-large',
      detail: '100 x 100 px of this kind take 0 MiB to decode; the limit is 0 MiB',
    },
    widthPx: 100,
  })
  await expect(readImage(png, 'png', { decode: true, limits: LIMITS, share: 29_999 })).rejects.toThrow(
    TooMuchAtOnce,
  )
  const { intact } = await readImage(png, 'png', { decode: true, limits: LIMITS, share: 30_000 })
  expect(intact).toBe(true)
  // Its header takes none.
  expect(await readImage(png, 'png', { decode: false, limits })).toMatchObject({ fault: null, intact: null })
})
