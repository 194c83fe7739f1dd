import { deflateSync } from 'node:zlib'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { measure } from '../../../src/measure/measure.ts'
import type { Measurements } from '../../../src/measure/schema/measurements.ts'
import { iccChunks, segment, withSegments } from '../../measure/file/bytes/jpeg-writer.ts'
import { chunk } from '../../measure/file/bytes/png-writer.ts'
import { writeTiff } from '../../measure/file/bytes/tiff-writer.ts'
import { ascii, exifSegment, writeExif } from '../../measure/file/exif/exif-writer.ts'
import { writeProfile } from '../../measure/file/icc/icc-writer.ts'
import { resource, resourceSegment, UTF8, writeIim } from '../../measure/metadata/formats/iim-writer.ts'
import { bag, packet, xmpSegment } from '../../measure/metadata/formats/xmp-writer.ts'
import { patched, plain, temporaryFile } from '../../measure/samples.ts'
import { judged, strictSpec } from './judged.ts'

interface Hostile {
  readonly measured: Measurements
  /** Memory that the measuring took at most beyond what was taken before, in MiB. */
  readonly growthMiB: number
}

async function measured(name: string, content: Buffer): Promise<Hostile> {
  const path = temporaryFile(name, content)
  const before = process.memoryUsage().rss
  let most = before
  const timer = setInterval(() => {
    most = Math.max(most, process.memoryUsage().rss)
  }, 5)
  try {
    const result = await measure({ path, file: name }, ['file', 'decode', 'metadata'])
    return { measured: result, growthMiB: (most - before) / 2 ** 20 }
  } finally {
    clearInterval(timer)
  }
}

const jpeg = (width = 60, height = 80) => plain([200, 150, 120], width, height).jpeg().toBuffer()

/** A PNG of black pixels, packed as small as can be. */
function blackPng(width: number, height: number): Buffer {
  const head = Buffer.alloc(13)
  head.writeUInt32BE(width, 0)
  head.writeUInt32BE(height, 4)
  head.writeUInt8(8, 8)
  head.writeUInt8(2, 9)
  const data = deflateSync(Buffer.alloc((3 * width + 1) * height), { level: 9 })
  const signature = Buffer.from('\x89PNG\r\n\x1a\n', 'latin1')
  return Buffer.concat([signature, chunk('IHDR', head), chunk('IDAT', data), chunk('IEND', Buffer.alloc(0))])
}

describe('pictures that unpack to more than they look', () => {
  test('a PNG of half a megabyte with the most pixels that are read takes the memory of its pixels', async () => {
    const content = blackPng(12_600, 12_600)
    expect(content.length).toBeLessThan(600_000)
    const { measured: result, growthMiB } = await measured('a.png', content)
    expect(result.fault).toBeNull()
    // 454 MiB of pixels.
    expect(growthMiB).toBeLessThan(900)
  })

  test('one with a pixel row more than that is refused by its header', async () => {
    const head = blackPng(8, 8)
    const large = patched(head, (copy) => {
      copy.writeUInt32BE(12_700, 16)
      copy.writeUInt32BE(12_700, 20)
    })
    // The checksum of the header is right: it is no damage that is told.
    const ihdr = chunk('IHDR', large.subarray(16, 29))
    const content = Buffer.concat([large.subarray(0, 8), ihdr, large.subarray(33)])
    const { measured: result, growthMiB } = await measured('a.png', content)
    expect(result.fault).toMatchObject({
      kind: 'too-large',
      detail: expect.stringContaining('12700 x 12700 px'),
    })
    expect(growthMiB).toBeLessThan(100)
  })

  test.each(['webp', 'avif', 'tiff'] as const)(
    'a %s header that claims 60,000 x 60,000 pixels',
    async (format) => {
      const content = await plain([1, 2, 3], 64, 48).toFormat(format, { lossless: true }).toBuffer()
      const claimed = claiming(content, format, 60_000)
      const { measured: result, growthMiB } = await measured(`a.${format}`, claimed)
      expect(['too-large', 'corrupt']).toContain(result.fault?.kind)
      expect(growthMiB).toBeLessThan(200)
    },
  )
})

function claiming(content: Buffer, format: 'webp' | 'avif' | 'tiff', edge: number): Buffer {
  return patched(content, (copy) => {
    if (format === 'avif') for (const at of [8, 12]) copy.writeUInt32BE(edge, copy.indexOf('ispe') + at)
    // VP8L holds 14 bits a side (RFC 9649, 3.4): its largest.
    if (format === 'webp') copy.writeUInt32LE(0x0fffffff, copy.indexOf('VP8L') + 9)
    if (format !== 'tiff') return
    const directory = copy.readUInt32LE(4)
    for (let n = 0; n < copy.readUInt16LE(directory); n++) {
      const at = directory + 2 + 12 * n
      if (copy.readUInt16LE(at) === 0x100 || copy.readUInt16LE(at) === 0x101) copy.writeUInt16LE(edge, at + 8)
    }
  })
}

describe('directories without end', () => {
  test('a TIFF whose only directory is followed by itself', async () => {
    const whole = await plain([1, 2, 3], 40, 40).tiff({ compression: 'none' }).toBuffer()
    const loop = patched(whole, (copy) => {
      const directory = copy.readUInt32LE(4)
      copy.writeUInt32LE(directory, directory + 2 + 12 * copy.readUInt16LE(directory))
    })
    expect((await measured('a.tif', loop)).measured.widthPx).toBe(40)
  })

  test('an Exif block whose directories lead to each other', async () => {
    const block = writeExif({
      main: [ascii(0x013b, 'Mika Thorne')],
      exif: [ascii(0xa431, 'SN')],
      thumbnail: [],
    })
    const main = 8
    // The pointer to the Exif directory and the chain both lead back to the first one.
    const loop = patched(block, (copy) => {
      copy.writeUInt32LE(main, main + 2 + 12 + 8)
      copy.writeUInt32LE(main, main + 2 + 24)
    })
    const { measured: result } = await measured(
      'a.jpg',
      withSegments(await jpeg(), [segment(0xe1, exifSegment(loop))]),
    )
    expect(result.metadata?.creator).toEqual(['Mika Thorne'])
  })

  test('sixty thousand pages', async () => {
    const page = await plain([1, 2, 3], 8, 8).tiff({ compression: 'none' }).toBuffer()
    const first = page.readUInt32LE(4)
    const length = 2 + 12 * page.readUInt16LE(first) + 4
    const directory = page.subarray(first, first + length)
    const next = (at: number, to: number, bytes: Buffer) => bytes.writeUInt32LE(to, at + length - 4)
    const pages = Array.from({ length: 60_000 }, (_, n) => {
      const copy = Buffer.from(directory)
      next(0, n === 59_999 ? 0 : page.length + (n + 1) * length, copy)
      return copy
    })
    const chained = patched(page, (copy) => next(first, page.length, copy))
    const { measured: result } = await measured('a.tif', Buffer.concat([chained, ...pages]))
    expect(result.metadata?.opaque).toEqual([{ where: 'further pages of the TIFF', bytes: null }])
  })

  test('65,000 entries whose values lie upon each other', async () => {
    const { tiff } = writeTiff({
      entries: Array.from({ length: 65_000 }, (_, n) => [n + 1, 3, [1, 2, 3]] as const),
    })
    for (let at = 10; at < 10 + 12 * 65_000; at += 12) {
      tiff.writeUInt32LE(200_000, at + 4)
      tiff.writeUInt32LE(8, at + 8)
    }
    const block = segment(0xe1, exifSegment(tiff.subarray(0, 65_000)))
    const content = withSegments(await jpeg(), Array<Buffer>(100).fill(block))
    const { measured: jpegResult } = await measured('a.jpg', content)
    expect(jpegResult.metadata?.unreadable).toContainEqual({ where: 'EXIF', why: 'damaged' })
    expect((await measured('a.tif', tiff)).measured.fault).not.toBeNull()
  })
})

describe('blocks beyond reason', () => {
  test('a profile of sixteen megabytes, the most that a JPEG can hold', async () => {
    const icc = Buffer.alloc(16_000_000)
    writeProfile().copy(icc)
    icc.writeUInt32BE(icc.length, 0)
    const { measured: result } = await measured('a.jpg', withSegments(await jpeg(), iccChunks(icc)))
    expect(result.color?.profile).toBe('sRGB')
  })

  test('a packet of a million nodes, and one with entities that double thirty times', async () => {
    const nodes = xmpSegment(packet('<xmp:a/>'.repeat(7000)))
    const entities = Array.from({ length: 30 }, (_, n) => `<!ENTITY a${n + 1} "&a${n};&a${n};">`).join('')
    const bomb = xmpSegment(Buffer.from(`<!DOCTYPE x [<!ENTITY a0 "ha">${entities}]><x>&a30;</x>`))
    const content = withSegments(await jpeg(), [
      ...Array<Buffer>(140).fill(segment(0xe1, nodes)),
      segment(0xe1, bomb),
    ])
    const { measured: result, growthMiB } = await measured('a.jpg', content)
    expect(result.metadata?.unreadable).toContainEqual({ where: 'XMP', why: 'too-many' })
    expect(growthMiB).toBeLessThan(300)
  })

  test('24,000 keywords of 62 letters in IPTC-IIM and others in XMP', async () => {
    const long = (n: number) => `${String(n).padStart(6, '0')}${'x'.repeat(56)}`
    const block = resource(
      0x0404,
      writeIim([UTF8, ...Array.from({ length: 24_000 }, (_, n) => [2, 25, long(n)] as const)]),
    )
    const slices = Math.ceil(block.length / 60_000)
    const resources = Array.from({ length: slices }, (_, n) =>
      segment(0xed, resourceSegment(block.subarray(60_000 * n, 60_000 * (n + 1)))),
    )
    const others = packet(bag('dc:subject', ...Array.from({ length: 1800 }, (_, n) => `keyword ${n}`)))
    const content = withSegments(await jpeg(), [segment(0xe1, xmpSegment(others)), ...resources])
    const { measured: result } = await measured('a.jpg', content)
    expect(result.metadata?.keywords).toHaveLength(100)
  })
})

describe('pictures that are something else as well', () => {
  const HTML = '<script>alert(1)</script>'
  const ZIP = Buffer.from('PK\x05\x06'.concat('\0'.repeat(18)), 'latin1')

  test.each([
    ['an archive behind a JPEG', async () => Buffer.concat([await jpeg(), ZIP])],
    ['a page behind a JPEG', async () => Buffer.concat([await jpeg(), Buffer.from(HTML)])],
    [
      'a page in the comment of a JPEG',
      async () => withSegments(await jpeg(), [segment(0xfe, Buffer.from(HTML))]),
    ],
  ])('%s: the picture is judged, and what else is there is told', async (_, make) => {
    const { measured: result } = await measured('a.jpg', await make())
    expect(result).toMatchObject({ format: 'jpeg', fault: null })
    const told = [...(result.metadata?.opaque ?? []), ...(result.metadata?.places ?? [])]
    expect(told).toHaveLength(1)
  })

  test.each([
    ['an archive before a JPEG', async () => Buffer.concat([Buffer.from('PK\x03\x04'), await jpeg()])],
    ['a page before a JPEG', async () => Buffer.concat([Buffer.from(HTML), await jpeg()])],
    ['a GIF before a JPEG', async () => Buffer.concat([Buffer.from('GIF89a'), await jpeg()])],
  ])('%s: no JPEG is seen in it', async (_, make) => {
    const { measured: result } = await measured('a.jpg', await make())
    expect(result.fault?.kind).toMatch(/^(?:not-a-picture|format)$/)
  })

  test('a drawing that asks for files and a network is never drawn', async () => {
    const svg = '<svg xmlns="http://www.w3.org/2000/svg"><image href="file:///etc/passwd"/></svg>'
    for (const head of ['', '\ufeff', '<?xml version="1.0"?>', ' '.repeat(3000)]) {
      const { measured: result } = await measured('a.jpg', Buffer.from(head + svg))
      expect(result).toMatchObject({ format: 'svg', fault: { kind: 'format' } })
    }
  })

  test('a WebP that moves is refused with a sentence', async () => {
    const frames = await plain([1, 2, 3], 8, 16).raw().toBuffer()
    frames.fill(200, frames.length / 2)
    const raw = { width: 8, height: 16, channels: 3, pageHeight: 8 } as const
    const { measured: result } = await measured('a.webp', await sharp(frames, { raw }).webp().toBuffer())
    const [refusal] = judged(result, strictSpec('webp')).filter(({ verdict }) => verdict === 'fail')
    expect(refusal).toMatchObject({ rule: 'file-format', measured: 'an animated WebP' })
    expect(refusal?.reason).toMatch(/^The file is an animated WebP, which portrait-gate does not read/)
  })
})

test('a TIFF in CMYK of 16 bits is judged as what it is', async () => {
  const edge = 16
  const pixels = Buffer.alloc(edge * edge * 8, 0x40)
  const recipe = (dataAt: number) => ({
    entries: [
      [0x100, 4, [edge]],
      [0x101, 4, [edge]],
      [0x102, 3, [16, 16, 16, 16]],
      [0x103, 3, [1]],
      [0x106, 3, [5]],
      [0x111, 4, [dataAt]],
      [0x115, 3, [4]],
      [0x116, 4, [edge]],
      [0x117, 4, [pixels.length]],
    ] as const,
    data: pixels,
  })
  const { tiff } = writeTiff(recipe(writeTiff(recipe(0)).dataAt))
  const { measured: result } = await measured('a.tif', tiff)
  expect(result).toMatchObject({
    ...{ fault: null, intact: true, bitsPerChannel: 16, channels: 4 },
    color: { space: 'cmyk', profile: 'none' },
  })
})
