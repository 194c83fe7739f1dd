import { readFileSync } from 'node:fs'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { measure } from '../../../src/measure/measure.ts'
import { measureMetadata } from '../../../src/measure/metadata/metadata.ts'
import type { Metadata } from '../../../src/measure/schema/metadata.ts'
import { debianFile } from '../../outside/debian.ts'
import { type Exiftool, startedExiftool } from '../../outside/exiftool.ts'
import { packageFolder } from '../../outside/portraits.ts'
import { segment, withSegments } from '../file/bytes/jpeg-writer.ts'
import { ascii, bytes, exifSegment, writeExif } from '../file/exif/exif-writer.ts'
import { plain, temporaryFile } from '../samples.ts'
import { alt, bag, packet, seq, xmpSegment } from './formats/xmp-writer.ts'
import { decoded } from './preview/pictures.ts'

async function metadataOf(path: string): Promise<Metadata> {
  const { metadata } = await measure({ path, file: path }, ['decode', 'metadata'])
  if (!metadata) throw new Error(`no metadata of ${path}`)
  return metadata
}
const where = (metadata: Metadata, item: string) =>
  metadata.places.find((one) => one.item === item)?.where ?? []

describe('a file written here', () => {
  const XMP = packet(
    seq('dc:creator', 'Mika Thorne') +
      alt('dc:rights', { 'x-default': '© Osprey Lane' }) +
      alt('Iptc4xmpCore:AltTextAccessibility', { 'x-default': 'Portrait of Ada Lund' }) +
      bag('Iptc4xmpExt:PersonInImage', 'Ada Lund') +
      '<Iptc4xmpExt:PersonInImageWDetails><rdf:Bag><rdf:li rdf:parseType="Resource">' +
      alt('Iptc4xmpExt:PersonName', { 'x-default': 'Nkem Abara' }) +
      '</rdf:li></rdf:Bag></Iptc4xmpExt:PersonInImageWDetails>' +
      '<xmp:Rating>4</xmp:Rating><xmp:Label>Pick</xmp:Label>' +
      '<photoshop:Headline>Staff</photoshop:Headline><photoshop:Credit>Owl</photoshop:Credit>',
  )
  const file = async () =>
    withSegments(await plain([200, 150, 120], 80, 100).jpeg().toBuffer(), [
      segment(0xe1, exifSegment(writeExif({ exif: [bytes(0x927c, Buffer.from('maker note'))] }))),
      segment(0xe1, xmpSegment(XMP)),
    ])
  const measured = async (orientationTag: number | null = 1) =>
    measureMetadata({
      content: await file(),
      format: 'jpeg',
      widthPx: 80,
      heightPx: 100,
      orientationTag,
      pixels: await decoded(plain([200, 150, 120], 80, 100)),
    })

  test('its fields', async () => {
    expect(await measured()).toMatchObject({
      creator: ['Mika Thorne'],
      copyright: '© Osprey Lane',
      altText: 'Portrait of Ada Lund',
      personShown: ['Ada Lund', 'Nkem Abara'],
      rating: 4,
      label: 'Pick',
      headline: 'Staff',
      credit: 'Owl',
      description: null,
      keywords: [],
      gps: false,
      conflicts: [],
      unreadable: [],
      previews: [],
    })
  })

  test('a maker note can not be looked into', async () => {
    expect((await measured()).opaque).toEqual([{ where: 'EXIF MakerNote', bytes: 10 }])
  })

  test('a maker note of NULs is none', async () => {
    const blank = exifSegment(writeExif({ exif: [bytes(0x927c, Buffer.alloc(100))] }))
    const content = withSegments(await plain([9, 9, 9]).jpeg().toBuffer(), [segment(0xe1, blank)])
    const size = { widthPx: 32, heightPx: 24, orientationTag: null }
    expect((await measureMetadata({ content, format: 'jpeg', ...size, pixels: null })).opaque).toEqual([])
  })

  test('a file cut off has no metadata that counts', async () => {
    const path = temporaryFile('a.jpg', (await file()).subarray(0, -200))
    expect(await measure({ path, file: 'a.jpg' }, ['file', 'metadata'])).toMatchObject({
      fault: { kind: 'truncated' },
      metadata: null,
    })
  })

  test.each([
    ['-1', -1],
    ['5', 5],
    ['6', null],
    ['many', null],
    ['', null],
  ])('rating %s', async (text, rating) => {
    const xmp = xmpSegment(packet(`<xmp:Rating>${text}</xmp:Rating>`))
    const content = withSegments(await plain([9, 9, 9]).jpeg().toBuffer(), [segment(0xe1, xmp)])
    const found = await measureMetadata({
      content,
      format: 'jpeg',
      widthPx: 32,
      heightPx: 24,
      orientationTag: null,
      pixels: null,
    })
    expect(found.rating).toBe(rating)
  })
})

// Golden file: examples/data/board.jpg of Debian's opencv-doc, written by an editor: the same creator and rights in Exif
// and IIM, UTF-8 stated, and a digest that fits. Values as ExifTool 12.57 reads them.
const board = debianFile('opencv-doc', '/usr/share/doc/opencv-doc/examples/data/board.jpg')
const exiftool = startedExiftool()
// The module MWG changes what is read from then on.
const exiftoolWithMwg = startedExiftool()

describe.skipIf(!board)('board.jpg', () => {
  test('creator, rights and time', async () => {
    expect(await metadataOf(board as string)).toMatchObject({
      creator: ['Mayang Adnin and William Smith'],
      copyright: 'Copyright 2001-2004 Mayang Adnin and William Smith',
      captureTime: '2002-09-13T18:59:18',
      gps: false,
      conflicts: [],
      statedSizes: [
        { where: 'EXIF PixelXDimension x PixelYDimension', widthPx: 640, heightPx: 480, stale: false },
      ],
      unreadable: [],
      opaque: [],
    })
  })

  test.skipIf(!exiftool)('its IIM changed by another program: told, and Exif still goes first', async () => {
    const path = temporaryFile('board.jpg', readFileSync(board as string))
    // Without its digest brought up to date, as programs do that know nothing of it.
    await exiftool?.('-q', '-overwrite_original', '-IPTC:By-line=Someone Else', path)
    const found = await metadataOf(path)
    expect(found.creator).toEqual(['Mayang Adnin and William Smith'])
    expect(found.conflicts.map(({ field }) => field)).toEqual(['creator'])
    expect(found.conflicts[0]?.values).toContainEqual({
      where: 'IPTC 2:80 By-line',
      values: ['Someone Else'],
    })
  })
})

// test/starfish.jpg of the npm package exif-parser 0.1.12 (MIT), a telephone's picture made smaller by a program that left
// its Exif as it was. Values as ExifTool 12.57 reads them.
describe('starfish.jpg', () => {
  const starfish = async () => metadataOf(`${await packageFolder('exif-parser')}/test/starfish.jpg`)

  test('coordinates, and never their values', async () => {
    const found = await starfish()
    expect(found.gps).toBe(true)
    expect(where(found, 'coordinates')).toEqual(['EXIF GPSLatitude', 'EXIF GPSLongitude', 'EXIF GPSAltitude'])
    expect(JSON.stringify(found)).not.toMatch(/19\.52|25\.89/)
  })

  test('stale sizes', async () => {
    expect((await starfish()).statedSizes).toEqual([
      { where: 'EXIF PixelXDimension x PixelYDimension', widthPx: 3552, heightPx: 2000, stale: true },
    ])
  })

  test('its thumbnail of 18,032 bytes, 320 x 192 px, shows the picture squeezed', async () => {
    const [preview, ...others] = (await starfish()).previews
    expect(others).toEqual([])
    expect(preview).toMatchObject({
      where: 'EXIF thumbnail',
      bytes: 18032,
      widthPx: 320,
      heightPx: 192,
      shows: 'same',
    })
  })

  test('time, software, and what can not be looked into', async () => {
    const found = await starfish()
    expect(found.captureTime).toBe('2013-05-10T15:21:35')
    expect(where(found, 'software')).toEqual(['EXIF Software'])
    expect(found.opaque).toContainEqual({ where: 'EXIF MakerNote', bytes: 5243 })
  })
})

describe.skipIf(!exiftool)('ExifTool writes, we read', () => {
  const run = exiftool as Exiftool
  const FORMATS = ['jpg', 'png', 'tif', 'webp', 'avif'] as const
  async function written(extension: (typeof FORMATS)[number], ...tags: readonly string[]): Promise<string> {
    const format = { jpg: 'jpeg', tif: 'tiff' } as const
    const id = extension === 'jpg' || extension === 'tif' ? format[extension] : extension
    const content = await plain([200, 150, 120], 80, 100).toFormat(id).toBuffer()
    const path = temporaryFile(`a.${extension}`, content)
    await run('-q', '-overwrite_original', ...tags, path)
    return path
  }

  describe.each(FORMATS)('%s', (extension) => {
    test('fields in XMP', async () => {
      const found = await metadataOf(
        await written(
          extension,
          '-XMP-dc:Creator=Åsa Bergström',
          '-XMP-dc:Creator=Mika & Söhne',
          '-XMP-dc:Rights=© Osprey Lane',
          '-XMP-dc:Description=A portrait',
          '-XMP-dc:Subject=staff',
          '-XMP-photoshop:Headline=Head',
          '-XMP-photoshop:Source=Sitting 4',
          '-XMP-xmp:Label=Pick',
          '-XMP-xmp:Rating=3',
          '-XMP-xmpRights:UsageTerms=Staff page only',
          '-XMP-xmpRights:WebStatement=https://example.org/rights',
          '-XMP-iptcExt:PersonInImage=Nkem Abara',
          '-XMP-photoshop:DateCreated=2026:03:05 10:21:35+02:00',
        ),
      )
      expect(found).toMatchObject({
        creator: ['Åsa Bergström', 'Mika & Söhne'],
        copyright: '© Osprey Lane',
        description: 'A portrait',
        keywords: ['staff'],
        headline: 'Head',
        source: 'Sitting 4',
        label: 'Pick',
        rating: 3,
        usageTerms: 'Staff page only',
        webStatement: 'https://example.org/rights',
        personShown: ['Nkem Abara'],
        captureTime: '2026-03-05T10:21:35+02:00',
        unreadable: [],
      })
    })

    test('private items in Exif', async () => {
      const found = await metadataOf(
        await written(
          extension,
          '-EXIF:GPSLatitude=55.038',
          '-EXIF:GPSLatitudeRef=N',
          '-EXIF:GPSLongitude=8.457',
          '-EXIF:GPSLongitudeRef=E',
          '-EXIF:SerialNumber=BODY-77',
          '-EXIF:LensSerialNumber=LENS-77',
          '-EXIF:OwnerName=Ada Lund',
          '-EXIF:Software=Owl 3',
          '-EXIF:HostComputer=studio-7',
          '-EXIF:UserComment=retouch later',
          '-EXIF:Artist=Mika Thorne',
        ),
      )
      expect(found.creator).toEqual(['Mika Thorne'])
      expect(found.gps).toBe(true)
      expect(where(found, 'coordinates')).toEqual(['EXIF GPSLatitude', 'EXIF GPSLongitude'])
      expect(where(found, 'camera-serial')).toEqual(['EXIF BodySerialNumber'])
      expect(where(found, 'lens-serial')).toEqual(['EXIF LensSerialNumber'])
      expect(where(found, 'owner')).toEqual(['EXIF CameraOwnerName'])
      expect(where(found, 'software')).toEqual(['EXIF Software'])
      expect(where(found, 'host-computer')).toEqual(['EXIF HostComputer'])
      expect(where(found, 'comments')).toEqual(['EXIF UserComment'])
      expect(JSON.stringify(found)).not.toMatch(/55[.,]|BODY-77|LENS-77|Ada Lund|studio-7|retouch later/)
    })
  })

  test.each(['jpg', 'tif'] as const)(
    'IIM in %s: names, places and the cut at 32 bytes',
    async (extension) => {
      const name = 'A very long photographer name exceeding the limit'
      const found = await metadataOf(
        await written(
          extension,
          '-CodedCharacterSet=UTF8',
          `-IPTC:By-line=${name}`,
          `-XMP-dc:Creator=${name}`,
          '-IPTC:CopyrightNotice=© Osprey Lane',
          '-IPTC:City=Osprey',
          '-IPTC:Keywords=staff',
        ),
      )
      expect(found.creator).toEqual([name])
      expect(found.copyright).toBe('© Osprey Lane')
      expect(found.keywords).toEqual(['staff'])
      expect(found.conflicts).toEqual([])
      expect(where(found, 'place-names')).toEqual(['IPTC 2:90 City'])
    },
  )

  // The same cases, reconciled by ExifTool's own reading of the MWG Guidelines 2.0 (its module MWG).
  const sets: Readonly<Record<string, readonly string[]>> = {
    Exif: ['-EXIF:Artist=E', '-EXIF:Copyright=E', '-EXIF:ImageDescription=E'],
    XMP: ['-XMP-dc:Creator=X', '-XMP-dc:Rights=X', '-XMP-dc:Description=X'],
    IIM: ['-IPTC:By-line=I', '-IPTC:CopyrightNotice=I', '-IPTC:Caption-Abstract=I'],
    'right digest': ['-IPTCDigest=new'],
    'other digest': ['-IPTCDigest=0123456789abcdef0123456789abcdef'],
  }
  test.each([
    ['Exif', 'XMP', 'IIM'],
    ['XMP', 'IIM'],
    ['XMP', 'IIM', 'right digest'],
    ['XMP', 'IIM', 'other digest'],
    ['Exif', 'XMP', 'IIM', 'other digest'],
    ['IIM'],
    ['IIM', 'right digest'],
    ['IIM', 'other digest'],
    ['XMP'],
    ['Exif', 'IIM'],
  ])('reconciled as ExifTool does: %s %s %s %s', async (...names) => {
    const path = await written('jpg', ...names.filter(Boolean).flatMap((name) => sets[name] ?? []))
    const fields = ['-MWG:Creator', '-MWG:Copyright', '-MWG:Description']
    const json = await (exiftoolWithMwg as Exiftool)('-j', '-use', 'MWG', ...fields, path)
    const [other = {}] = JSON.parse(json) as Record<string, unknown>[]
    const found = await metadataOf(path)
    expect(found.creator).toEqual([other.Creator].flat())
    expect(found.copyright).toBe(other.Copyright)
    expect(found.description).toBe(other.Description)
  })

  test('XMP that is larger than one segment of a JPEG', async () => {
    const words = Array.from({ length: 12_000 }, (_, n) => `word${n}`)
    const path = await written('jpg', '-XMP-dc:Creator=Mika')
    const long = temporaryFile('long.txt', words.join(' '))
    await run('-q', '-overwrite_original', `-XMP-photoshop:History<=${long}`, path)
    expect(readFileSync(path, 'latin1')).toContain('http://ns.adobe.com/xmp/extension/')
    const found = await metadataOf(path)
    expect(found.unreadable).toEqual([])
    expect(found.creator).toEqual(['Mika'])
    expect(where(found, 'edit-history')).toEqual(['XMP photoshop:History'])
  })

  test('a thumbnail of another crop', async () => {
    const random = await sharp({ create: { width: 400, height: 500, channels: 3, background: '#ccc' } })
      .composite([
        {
          input: Buffer.from(
            '<svg xmlns="http://www.w3.org/2000/svg" width="400" height="500"><ellipse cx="200" cy="190" rx="80" ry="110" fill="#a76"/><rect x="60" y="320" width="280" height="180" fill="#235"/></svg>',
          ),
        },
      ])
      .png()
      .toBuffer()
    const preview = temporaryFile(
      'preview.jpg',
      await sharp(random).resize(160, 160, { fit: 'inside' }).jpeg().toBuffer(),
    )
    const cropped = await sharp(random)
      .extract({ left: 40, top: 30, width: 320, height: 400 })
      .jpeg()
      .toBuffer()
    const path = temporaryFile('a.jpg', cropped)
    await run('-q', '-overwrite_original', `-ThumbnailImage<=${preview}`, path)
    const [found] = (await metadataOf(path)).previews
    expect(found?.shows).toBe('other-crop')
    expect(found?.crop?.width).toBeCloseTo(0.8, 1)
  })

  test('what we write, ExifTool reads: the writers of these tests are sound', async () => {
    const content = withSegments(await plain([200, 150, 120]).jpeg().toBuffer(), [
      segment(
        0xe1,
        exifSegment(writeExif({ main: [ascii(0x013b, 'Mika Thorne')], exif: [ascii(0xa431, 'BODY-1')] })),
      ),
      segment(0xe1, xmpSegment(packet(seq('dc:creator', 'Mika', 'Ada')))),
    ])
    const json = await run('-j', '-G1', temporaryFile('a.jpg', content))
    const [read = {}] = JSON.parse(json) as Record<string, unknown>[]
    expect(read['IFD0:Artist']).toBe('Mika Thorne')
    expect(read['ExifIFD:SerialNumber']).toBe('BODY-1')
    expect(read['XMP-dc:Creator']).toEqual(['Mika', 'Ada'])
    expect(read['ExifTool:Warning']).toBeUndefined()
  })
})
