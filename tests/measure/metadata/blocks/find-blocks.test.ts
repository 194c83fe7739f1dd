import { deflateSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { findBlocks } from '../../../../src/measure/metadata/blocks/find-blocks.ts'
import { box } from '../../file/bytes/box-writer.ts'
import { segment, withSegments } from '../../file/bytes/jpeg-writer.ts'
import { chunk, withChunks } from '../../file/bytes/png-writer.ts'
import { writeTiff } from '../../file/bytes/tiff-writer.ts'
import { ascii, exifSegment, writeExif } from '../../file/exif/exif-writer.ts'
import { patched, plain } from '../../samples.ts'
import { resource, resourceSegment, writeIim } from '../formats/iim-writer.ts'
import { packet, seq, xmpSegment } from '../formats/xmp-writer.ts'

const picture = () => plain([200, 150, 120])
const EXIF = writeExif({ main: [ascii(0x013b, 'Mika Thorne')] })
const XMP = packet(seq('dc:creator', 'Mika Thorne'))
const IIM = writeIim([[2, 80, 'Mika Thorne']])
const JUNK = Buffer.alloc(20, 0xff)

describe('JPEG', () => {
  const jpeg = async (...segments: readonly Buffer[]) =>
    findBlocks('jpeg', withSegments(await picture().jpeg().toBuffer(), segments))

  test('a plain one has none', async () => {
    const raw = await jpeg()
    expect(raw).toMatchObject({ exif: [], xmp: [], resources: null, comments: 0, opaque: [], unreadable: [] })
  })

  test('Exif, XMP and image resources', async () => {
    const raw = await jpeg(
      segment(0xe1, exifSegment(EXIF)),
      segment(0xe1, xmpSegment(XMP)),
      segment(0xed, resourceSegment(resource(0x0404, IIM))),
    )
    expect(raw.exif).toEqual([{ where: 'EXIF', tiff: EXIF }])
    expect(raw.xmp).toEqual([{ where: 'XMP', packet: XMP }])
    expect(raw.resources).toEqual(resource(0x0404, IIM))
    expect(raw.opaque).toEqual([])
  })

  test('image resources that run on from one segment to the next', async () => {
    const all = resource(0x0404, IIM)
    const raw = await jpeg(
      segment(0xed, resourceSegment(all.subarray(0, 20))),
      segment(0xed, resourceSegment(all.subarray(20))),
    )
    expect(raw.resources).toEqual(all)
  })

  test('extended XMP', async () => {
    const head = Buffer.alloc(40, 'A')
    head.writeUInt32BE(XMP.length, 32)
    head.writeUInt32BE(0, 36)
    const code = Buffer.from('http://ns.adobe.com/xmp/extension/\0', 'latin1')
    const raw = await jpeg(segment(0xe1, Buffer.concat([code, head, XMP])))
    expect(raw.xmp).toEqual([{ where: 'XMP (extended)', packet: XMP }])
  })

  test('comments that are not blank', async () => {
    expect(
      (await jpeg(segment(0xfe, Buffer.from('  \0')), segment(0xfe, Buffer.from('retouch later')))).comments,
    ).toBe(1)
  })

  test('a comment that is a picture', async () => {
    const picture = Buffer.from('\xff\xd8\xff\xd9', 'latin1')
    const raw = await jpeg(segment(0xfe, picture), segment(0xfe, Buffer.from('retouch later')))
    expect(raw.previews).toEqual([{ where: 'JPEG comment', picture }])
  })

  test('segments of other kinds are told with their size', async () => {
    const raw = await jpeg(
      segment(0xeb, Buffer.alloc(100, 1)),
      segment(0xeb, Buffer.alloc(50, 1)),
      segment(0xe2, Buffer.from('MPF\0....')),
    )
    expect(raw.opaque).toEqual([
      { where: 'JPEG segment APP11', bytes: 150 },
      { where: 'JPEG segment APP2', bytes: 8 },
    ])
  })

  test('data after the end, unless it is padding', async () => {
    const content = await picture().jpeg().toBuffer()
    const tail = async (bytes: Buffer) => (await findBlocks('jpeg', Buffer.concat([content, bytes]))).opaque
    expect(await tail(Buffer.alloc(512))).toEqual([])
    expect(await tail(content)).toEqual([
      { where: 'data after the end of the picture', bytes: content.length },
    ])
  })

  // ITU-T T.871, 10.1 and 10.2.
  test('thumbnails of JFIF', async () => {
    const thumbnail = await picture().jpeg().toBuffer()
    const jfif = Buffer.from('JFIF\0\x01\x02\x01\0\x48\0\x48\x02\x02............', 'latin1')
    const jfxx = Buffer.concat([Buffer.from('JFXX\0\x10', 'latin1'), thumbnail])
    const raw = await jpeg(
      segment(0xe0, jfif),
      segment(0xe0, jfxx),
      segment(0xe0, Buffer.from('JFXX\0\x13..', 'latin1')),
    )
    expect(raw.previews).toEqual([
      { where: 'JFIF thumbnail', picture: null },
      { where: 'JFXX thumbnail', picture: thumbnail },
      { where: 'JFXX thumbnail', picture: null },
    ])
  })

  test('100,000 segments: no more are kept than a picture can need', async () => {
    const content = await picture().jpeg().toBuffer()
    const many = withSegments(
      content,
      Array.from({ length: 100_000 }, () => segment(0xe1, exifSegment(EXIF))),
    )
    expect((await findBlocks('jpeg', many)).exif.length).toBeLessThanOrEqual(5000)
  })
})

describe('PNG', () => {
  const END = 12
  /** Chunks behind the header or before the end. */
  const png = async (chunks: readonly Buffer[], late: readonly Buffer[] = [], tail = Buffer.alloc(0)) => {
    const content = await picture().png().toBuffer()
    const parts = [
      content.subarray(0, 33),
      ...chunks,
      content.subarray(33, -END),
      ...late,
      content.subarray(-END),
      tail,
    ]
    return findBlocks('png', Buffer.concat(parts))
  }
  const xmpChunk = chunk('iTXt', Buffer.concat([Buffer.from('XML:com.adobe.xmp\0\0\0\0\0', 'latin1'), XMP]))

  test('before the picture and after it', async () => {
    for (const raw of [
      await png([chunk('eXIf', EXIF), xmpChunk]),
      await png([], [chunk('eXIf', EXIF), xmpChunk]),
    ]) {
      expect(raw.exif).toEqual([{ where: 'EXIF', tiff: EXIF }])
      expect(raw.xmp).toEqual([{ where: 'XMP', packet: XMP }])
    }
  })

  test('texts by keyword, the first of each', async () => {
    const raw = await png([
      chunk('tEXt', Buffer.from('Author\0Mika')),
      chunk('tEXt', Buffer.from('Author\0Ada')),
      chunk('zTXt', Buffer.concat([Buffer.from('Comment\0\0'), deflateSync(Buffer.from('note'))])),
    ])
    expect([...raw.texts]).toEqual([
      ['Author', 'Mika'],
      ['Comment', 'note'],
    ])
  })

  test.each([
    ['exif', Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), EXIF]), 'exif'],
    ['APP1', Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), EXIF]), 'exif'],
    ['APP1', xmpSegment(XMP), 'xmp'],
    ['xmp', XMP, 'xmp'],
    ['iptc', resource(0x0404, IIM), 'resources'],
    ['iptc', IIM, 'iim'],
  ] as const)('hexadecimal blocks in text: %s', async (name, block, kind) => {
    const lines = block.toString('hex').replace(/.{72}/g, '$&\n')
    const text = `Raw profile type ${name}\0\n${name}\n${String(block.length).padStart(8)}\n${lines}\n`
    const raw = await png([chunk('tEXt', Buffer.from(text, 'latin1'))])
    const found = {
      exif: raw.exif[0]?.tiff,
      xmp: raw.xmp[0]?.packet,
      resources: raw.resources,
      iim: raw.iim,
    }
    expect(found[kind]).toEqual({ exif: EXIF, xmp: XMP, resources: resource(0x0404, IIM), iim: IIM }[kind])
  })

  test('what can not be read is told', async () => {
    const raw = await png([chunk('zTXt', Buffer.from('Author\0\0junk'))])
    expect(raw.unreadable).toEqual([{ where: 'PNG text', why: 'damaged' }])
  })

  test('content credentials and data after the end', async () => {
    const raw = await png([chunk('caBX', Buffer.alloc(99, 1))], [], Buffer.from('tail'))
    expect(raw.opaque).toEqual([
      { where: 'PNG chunk caBX', bytes: 99 },
      { where: 'data after the end of the picture', bytes: 4 },
    ])
  })
})

describe('PNG texts beyond number', () => {
  const packed = deflateSync(Buffer.alloc(1024 * 1024 - 10, 'x'))
  const text = (n: number) => chunk('zTXt', Buffer.concat([Buffer.from(`k${n}\0\0`), packed]))

  test('that unpack to a megabyte each: a few are read, and the rest is told', async () => {
    const content = withChunks(
      await picture().png().toBuffer(),
      Array.from({ length: 2000 }, (_, n) => text(n)),
    )
    const raw = await findBlocks('png', content)
    expect(raw.texts.size).toBeLessThan(10)
    expect(raw.unreadable).toContainEqual({ where: 'PNG text', why: 'too-many' })
  })

  test('that are damaged: no more than 500 are tried', async () => {
    const damaged = Array.from({ length: 3000 }, () => chunk('zTXt', Buffer.from('k\0\0damaged')))
    const raw = await findBlocks('png', withChunks(await picture().png().toBuffer(), damaged))
    expect(raw.unreadable.filter(({ why }) => why === 'damaged')).toHaveLength(500)
  })
})

describe('TIFF', () => {
  test('its own directory is that of Exif; the other blocks have tags', async () => {
    const content = await picture()
      .withExif({ IFD0: { Artist: 'Mika Thorne' } })
      .withXmp(XMP.toString())
      .tiff()
      .toBuffer()
    const raw = await findBlocks('tiff', content)
    expect(raw.exif).toEqual([{ where: 'EXIF', tiff: content, isFile: true }])
    expect(raw.xmp[0]?.packet.toString()).toContain('Mika Thorne')
    expect(raw.previews).toEqual([])
    expect(raw.opaque).toEqual([])
  })

  const words = (block: Buffer) =>
    Array.from({ length: block.length / 4 }, (_, n) => block.readUInt32LE(4 * n))

  test('an IIM block that was turned over as 32-bit numbers', async () => {
    const block = Buffer.concat([IIM, Buffer.alloc((4 - (IIM.length % 4)) % 4)])
    const { tiff } = writeTiff({ entries: [[33723, 4, words(block)]] })
    expect((await findBlocks('tiff', tiff)).iim).toEqual(block)
    const turned = writeTiff({ entries: [[33723, 4, words(Buffer.from(block).swap32())]] })
    expect((await findBlocks('tiff', turned.tiff)).iim).toEqual(block)
  })

  test('layers and further pages can not be looked into', async () => {
    const { tiff } = writeTiff({ entries: [[37724, 4, [1, 2, 3]]] })
    expect((await findBlocks('tiff', tiff)).opaque).toEqual([{ where: 'layers (TIFF tag 37724)', bytes: 12 }])
    const { tiff: page } = writeTiff({ entries: [[256, 4, [1]]] })
    page.writeUInt32LE(8, 8 + 2 + 12)
    expect((await findBlocks('tiff', page)).opaque).toEqual([
      { where: 'further pages of the TIFF', bytes: null },
    ])
  })

  test('a second page that is a reduced copy is a preview', async () => {
    const second = writeTiff({ entries: [[254, 4, [1]]] }).tiff
    const { tiff: first } = writeTiff({ entries: [[256, 4, [1]]], data: second.subarray(8) })
    first.writeUInt32LE(first.length - second.length + 8, 8 + 2 + 12)
    const raw = await findBlocks('tiff', first)
    expect(raw.previews).toEqual([{ where: 'TIFF thumbnail', picture: first, page: 1 }])
    expect(raw.opaque).toEqual([])
  })

  test('a reduced copy with metadata of its own can not be looked into', async () => {
    const second = writeTiff({
      entries: [
        [254, 4, [1]],
        [0x8825, 4, [8]],
      ],
    }).tiff
    const { tiff: first } = writeTiff({ entries: [[256, 4, [1]]], data: second.subarray(8) })
    first.writeUInt32LE(first.length - second.length + 8, 8 + 2 + 12)
    expect((await findBlocks('tiff', first)).opaque).toEqual([
      { where: 'further pages of the TIFF', bytes: null },
    ])
  })

  test('a BigTIFF is told to be unread', async () => {
    const raw = await findBlocks('tiff', await picture().tiff({ bigtiff: true }).toBuffer())
    expect(raw.unreadable).toEqual([{ where: 'BigTIFF', why: 'unsupported' }])
  })
})

describe('AVIF', () => {
  test('free room that is not blank, in the file and in its description', async () => {
    const avif = await picture().avif().toBuffer()
    const opaque = async (content: Buffer) => (await findBlocks('avif', content)).opaque
    expect(await opaque(Buffer.concat([avif, box('free', Buffer.alloc(40))]))).toEqual([])
    expect(await opaque(Buffer.concat([avif, box('skip', Buffer.alloc(40, 1))]))).toEqual([
      { where: 'AVIF boxes of other kinds', bytes: 40 },
    ])
    const meta = Buffer.concat([Buffer.alloc(4), box('free', Buffer.alloc(9, 1))])
    expect(await opaque(Buffer.concat([avif, box('meta', meta)]))).toEqual([
      { where: 'AVIF boxes of other kinds', bytes: 9 },
    ])
  })

  test('a thumbnail among the items', async () => {
    const avif = await picture().ensureAlpha(0.5).avif().toBuffer()
    // The reference of transparency to its picture becomes that of a thumbnail.
    const changed = patched(avif, (copy) => copy.write('thmb', copy.indexOf('auxl'), 'latin1'))
    expect((await findBlocks('avif', avif)).previews).toEqual([])
    expect((await findBlocks('avif', changed)).previews).toEqual([{ where: 'AVIF thumbnail', picture: null }])
  })

  test('data after the last box', async () => {
    const raw = await findBlocks('avif', Buffer.concat([await picture().avif().toBuffer(), JUNK]))
    expect(raw.opaque).toEqual([{ where: 'data after the end of the picture', bytes: JUNK.length }])
  })
})

describe.each(['webp', 'avif'] as const)('%s', (format) => {
  const saved = () =>
    picture()
      .withExif({ IFD0: { Artist: 'Mika Thorne' } })
      .withXmp(XMP.toString())
      .toFormat(format)
      .toBuffer()

  test('Exif and XMP', async () => {
    const raw = await findBlocks(format, await saved())
    expect(raw.exif[0]?.tiff.toString('latin1', 0, 4)).toBe('II\x2a\0')
    expect(raw.xmp[0]?.packet.toString()).toContain('Mika Thorne')
    expect(raw.opaque).toEqual([])
  })

  test('none', async () => {
    expect(await findBlocks(format, await picture().toFormat(format).toBuffer())).toMatchObject({
      exif: [],
      xmp: [],
    })
  })

  test('a vendor’s part', async () => {
    const part = format === 'avif' ? box('uuid', Buffer.alloc(40, 1)) : Buffer.from('C2PA\x04\0\0\0data')
    const content = Buffer.concat([await saved(), part])
    if (format === 'webp') content.writeUInt32LE(content.length - 8, 4)
    const [found] = (await findBlocks(format, content)).opaque
    expect(found).toEqual(
      format === 'avif'
        ? { where: 'AVIF boxes of other kinds', bytes: 40 }
        : { where: 'WebP chunks of other kinds', bytes: 4 },
    )
  })

  test('a header that the decoder refuses', async () => {
    const raw = await findBlocks(format, (await saved()).subarray(0, 30))
    expect(raw.unreadable).toEqual([{ where: 'the header', why: 'damaged' }])
  })
})
