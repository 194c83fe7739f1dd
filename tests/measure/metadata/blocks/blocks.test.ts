import { describe, expect, test } from 'vitest'
import { exifText } from '../../../../src/measure/file/exif/exif.ts'
import { readBlocks } from '../../../../src/measure/metadata/blocks/blocks.ts'
import { NO_BLOCKS } from '../../../../src/measure/metadata/blocks/raw-blocks.ts'
import { xmpTexts } from '../../../../src/measure/metadata/formats/xmp.ts'
import { ascii, writeExif } from '../../file/exif/exif-writer.ts'
import { md5, resource, writeIim } from '../formats/iim-writer.ts'
import { packet, seq } from '../formats/xmp-writer.ts'
import { blocks } from './blocks-writer.ts'

const good = { where: 'XMP', packet: packet(seq('dc:creator', 'Mika Thorne')) }

describe('a block that can not be read hides no other', () => {
  test('one of two packets', () => {
    const read = readBlocks({ ...NO_BLOCKS, xmp: [{ where: 'XMP', packet: Buffer.from('<x') }, good] })
    expect(read.unreadable).toEqual([{ where: 'XMP', why: 'damaged' }])
    expect(read.xmp.map((xmp) => xmpTexts(xmp, 'dc:creator'))).toEqual([['Mika Thorne']])
  })

  test('Exif, resources and IIM', () => {
    const read = readBlocks({
      ...NO_BLOCKS,
      exif: [{ where: 'EXIF', tiff: Buffer.from('junk') }],
      xmp: [good],
      resources: Buffer.concat([resource(0x0404, Buffer.from('junk')), Buffer.from('junk')]),
    })
    expect(read.unreadable).toEqual([
      { where: 'Photoshop resources', why: 'damaged' },
      { where: 'IPTC-IIM', why: 'damaged' },
      { where: 'EXIF', why: 'damaged' },
    ])
    expect(read.xmp).toHaveLength(1)
  })
})

describe('bounds', () => {
  test('a packet of more than 1 MiB', () => {
    const large = Buffer.concat([good.packet, Buffer.alloc(1024 * 1024, 0x20)])
    expect(readBlocks({ ...NO_BLOCKS, xmp: [{ where: 'XMP', packet: large }] }).unreadable).toEqual([
      { where: 'XMP', why: 'too-large' },
    ])
  })

  test('more than four packets', () => {
    const read = readBlocks({ ...NO_BLOCKS, xmp: Array.from({ length: 1000 }, () => good) })
    expect(read.xmp).toHaveLength(4)
    expect(read.unreadable).toEqual([{ where: 'XMP', why: 'too-many' }])
  })

  test('16 packets of 250,000 small elements each', () => {
    const bomb = { where: 'XMP', packet: Buffer.from(`<r>${'<a/>'.repeat(250_000)}</r>`) }
    expect(readBlocks({ ...NO_BLOCKS, xmp: Array.from({ length: 16 }, () => bomb) }).xmp).toEqual([])
  })

  test('the same trouble is told once', () => {
    const bad = { where: 'XMP', packet: Buffer.from('<x') }
    expect(readBlocks({ ...NO_BLOCKS, xmp: [bad, bad, bad] }).unreadable).toHaveLength(1)
  })
})

describe('image resources', () => {
  test('Exif and XMP may stand in them', () => {
    const read = blocks({
      resources: [
        resource(0x0422, writeExif({ main: [ascii(0x013b, 'Mika')] })),
        resource(0x0424, good.packet),
      ],
    })
    expect(exifText(read.exif[0]?.main ?? null, 0x013b)).toBe('Mika')
    expect(read.xmp).toHaveLength(1)
  })

  test('the digest; zeros stand for none', () => {
    const iim = writeIim([[2, 80, 'Mika']])
    expect(blocks({ resources: [resource(0x0425, md5(iim))] }).iimDigest).toBe(md5(iim).toString('hex'))
    expect(blocks({ resources: [resource(0x0425, Buffer.alloc(16))] }).iimDigest).toBeNull()
  })

  test('thumbnails, behind their head of 28 bytes', () => {
    const read = blocks({
      resources: [
        resource(0x040c, Buffer.concat([Buffer.alloc(28), Buffer.from('jpeg')])),
        resource(0x0409, Buffer.alloc(40)),
      ],
    })
    expect(read.previews).toEqual([
      { where: 'Photoshop thumbnail', picture: Buffer.from('jpeg') },
      { where: 'Photoshop 4 thumbnail', picture: null },
    ])
  })

  test('two IIM blocks that differ', () => {
    const two = [resource(0x0404, writeIim([[2, 80, 'Mika']])), resource(0x0404, writeIim([[2, 80, 'Ada']]))]
    expect(blocks({ resources: two }).unreadable).toEqual([{ where: 'IPTC-IIM', why: 'too-many' }])
    expect(blocks({ resources: [two[0] as Buffer, two[0] as Buffer] }).unreadable).toEqual([])
  })
})
