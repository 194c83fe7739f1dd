import { readFileSync } from 'node:fs'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { readContainer } from '../../../src/measure/file/container/container.ts'
import { readHeader } from '../../../src/measure/file/header.ts'
import type { Decodable } from '../../../src/measure/schema/formats.ts'
import { type Exiftool, startedExiftool } from '../../outside/exiftool.ts'
import { patched, plain, temporaryFile } from '../samples.ts'
import { iccChunks, withSegments } from './bytes/jpeg-writer.ts'
import { chunk, iccp, withChunks } from './bytes/png-writer.ts'
import { rgbTiff } from './bytes/tiff-writer.ts'
import { COLORANTS, gamma, writeProfile } from './icc/icc-writer.ts'

const header = (format: Decodable, content: Buffer) => readHeader(content, readContainer(format, content))
const picture = (width = 48, height = 32) => plain([200, 150, 120], width, height)

describe('size as displayed, orientation as stored', () => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8])('%i', async (orientation) => {
    const turned = orientation >= 5
    const expected = { widthPx: turned ? 32 : 48, heightPx: turned ? 48 : 32, orientationTag: orientation }
    const tagged = picture().withMetadata({ orientation })
    expect(await header('jpeg', await tagged.clone().jpeg().toBuffer())).toMatchObject(expected)
    expect(await header('png', await tagged.clone().png().toBuffer())).toMatchObject(expected)
    expect(await header('tiff', await tagged.clone().tiff().toBuffer())).toMatchObject(expected)
    expect(await header('webp', await tagged.clone().webp().toBuffer())).toMatchObject(expected)
  })

  test('no tag', async () => {
    const { widthPx, heightPx, orientationTag } = await header('jpeg', await picture().jpeg().toBuffer())
    expect([widthPx, heightPx, orientationTag]).toEqual([48, 32, null])
  })
})

const exiftool = startedExiftool()

describe.skipIf(!exiftool)('exiftool writes, we read', () => {
  const run = exiftool as Exiftool
  /** The picture with tags set by exiftool, and what exiftool itself reads back. */
  async function written(name: string, content: Buffer, ...tags: string[]) {
    const path = temporaryFile(name, content)
    await run('-q', '-overwrite_original', '-n', ...tags, path)
    const json = await run('-j', '-n', '-G1', path)
    return { content: readFileSync(path), tags: (JSON.parse(json) as Record<string, unknown>[])[0] ?? {} }
  }

  test.each([1, 2, 3, 4, 5, 6, 7, 8])('Orientation %i', async (orientation) => {
    const jpeg = await picture().jpeg().toBuffer()
    const { content, tags } = await written('a.jpg', jpeg, `-IFD0:Orientation=${orientation}`)
    expect(tags['IFD0:Orientation']).toBe(orientation)
    expect((await header('jpeg', content)).orientationTag).toBe(orientation)
  })

  test.each([
    ['Exif per inch', ['-IFD0:XResolution=240', '-IFD0:ResolutionUnit=2'], 240],
    ['Exif per cm', ['-IFD0:XResolution=118.11', '-IFD0:ResolutionUnit=3'], 300],
    ['JFIF per inch', ['-JFIF:XResolution=254', '-JFIF:ResolutionUnit=1'], 254],
    ['JFIF per cm', ['-JFIF:XResolution=100', '-JFIF:ResolutionUnit=2'], 254],
    ['no unit', ['-JFIF:XResolution=1', '-JFIF:ResolutionUnit=0'], null],
    [
      'Exif before JFIF',
      ['-JFIF:XResolution=72', '-JFIF:ResolutionUnit=1', '-IFD0:XResolution=300', '-IFD0:ResolutionUnit=2'],
      300,
    ],
    [
      'JFIF where Exif has no unit',
      ['-JFIF:XResolution=72', '-JFIF:ResolutionUnit=1', '-IFD0:XResolution=1', '-IFD0:ResolutionUnit=1'],
      72,
    ],
  ] as const)('JPEG resolution: %s', async (_, args, ppi) => {
    const jpeg = await picture().jpeg().toBuffer()
    const { content, tags } = await written('a.jpg', jpeg, ...args)
    // exiftool wrote what was asked.
    for (const [, tag, value] of args.map((arg) => /^-(.+)=(.+)$/.exec(arg) ?? [])) {
      expect(tags[tag as string]).toBe(Number(value))
    }
    expect((await header('jpeg', content)).ppi).toBe(ppi)
  })

  test('TIFF resolution', async () => {
    const tiff = await picture().tiff().toBuffer()
    const { content, tags } = await written('a.tif', tiff, '-IFD0:XResolution=350', '-IFD0:ResolutionUnit=2')
    expect(tags['IFD0:XResolution']).toBe(350)
    expect((await header('tiff', content)).ppi).toBe(350)
  })

  test('PNG resolution', async () => {
    const png = await picture().png().toBuffer()
    const { content, tags } = await written(
      'a.png',
      png,
      '-PNG-pHYs:PixelsPerUnitX=11811',
      '-PNG-pHYs:PixelUnits=1',
    )
    expect(tags['PNG-pHYs:PixelsPerUnitX']).toBe(11811)
    expect((await header('png', content)).ppi).toBe(300)
  })

  test('WebP resolution, in its Exif', async () => {
    const webp = await picture().webp().toBuffer()
    const { content, tags } = await written('a.webp', webp, '-IFD0:XResolution=200', '-IFD0:ResolutionUnit=2')
    expect(tags['IFD0:XResolution']).toBe(200)
    expect((await header('webp', content)).ppi).toBe(200)
  })

  test('bits, components, subsampling and profile name as exiftool reads them', async () => {
    const jpeg = await picture().withIccProfile('p3').jpeg({ chromaSubsampling: '4:2:0' }).toBuffer()
    const { content, tags } = await written('a.jpg', jpeg, '-XMP:Label=x')
    const read = await header('jpeg', content)
    expect(read.bitsPerChannel).toBe(tags['File:BitsPerSample'])
    expect(read.channels).toBe(tags['File:ColorComponents'])
    expect(read.color?.profileName).toBe(tags['ICC_Profile:ProfileDescription'])
    // exiftool -n: horizontal and vertical factor.
    expect(tags['File:YCbCrSubSampling']).toBe('2 2')
    expect(read.jpeg?.subsampling).toBe('4:2:0')
  })
})

describe('bits, channels, alpha and space', () => {
  const rgba = () =>
    sharp({ create: { width: 8, height: 6, channels: 4, background: { r: 1, g: 2, b: 3, alpha: 0.5 } } })

  test.each([
    ['jpeg', () => picture().jpeg(), 8, 3, false, 'rgb'],
    ['jpeg', () => picture().toColourspace('b-w').jpeg(), 8, 1, false, 'gray'],
    ['jpeg', () => picture().toColourspace('cmyk').jpeg(), 8, 4, false, 'cmyk'],
    ['png', () => picture().png(), 8, 3, false, 'rgb'],
    ['png', () => rgba().png(), 8, 4, true, 'rgb'],
    ['png', () => picture().toColourspace('rgb16').png(), 16, 3, false, 'rgb'],
    ['png', () => picture().toColourspace('grey16').png(), 16, 1, false, 'gray'],
    ['tiff', () => picture().tiff(), 8, 3, false, 'rgb'],
    ['tiff', () => picture().toColourspace('cmyk').tiff(), 8, 4, false, 'cmyk'],
    ['webp', () => rgba().webp(), 8, 4, true, 'rgb'],
    ['avif', () => picture(64, 48).avif({ bitdepth: 10 }), 10, 3, false, 'rgb'],
  ] as const)('%s %#', async (format, encode, bitsPerChannel, channels, hasAlpha, space) => {
    const read = await header(format, await encode().toBuffer())
    expect(read).toMatchObject({ bitsPerChannel, channels, hasAlpha, color: { space } })
  })
})

test('a TIFF in CIE L*a*b* (TIFF 6.0 section 23) is none of gray, RGB and CMYK', async () => {
  // Twice the width in 8 bits takes the bytes of the width in 16; PhotometricInterpretation 8 is L*a*b*.
  const rgb = rgbTiff(16, 6, 6, Buffer.alloc(16 * 6 * 3, 99))
  const valueAt = (entry: number) => 8 + 2 + 12 * entry + 8
  const deep = patched(rgb, (copy) => {
    copy.writeUInt32LE(8, valueAt(0))
    const bits = copy.readUInt32LE(valueAt(2))
    for (const n of [0, 1, 2]) copy.writeUInt16LE(16, bits + 2 * n)
  })
  const lab = patched(deep, (copy) => copy.writeUInt16LE(8, valueAt(4)))
  expect(await header('tiff', deep)).toMatchObject({
    widthPx: 8,
    bitsPerChannel: 16,
    color: { space: 'rgb' },
  })
  expect(await header('tiff', lab)).toMatchObject({ widthPx: 8, bitsPerChannel: 16, color: null })
})

describe('profile', () => {
  const adobe = writeProfile({
    name: 'sRGB IEC61966-2.1',
    colorants: COLORANTS.adobe,
    curves: [gamma(563 / 256)],
  })

  test('by content, with the name that it carries: JPEG, PNG, TIFF, WebP and AVIF', async () => {
    const color = { space: 'rgb', profile: 'Adobe RGB (1998)', profileName: 'sRGB IEC61966-2.1' }
    const icc = temporaryFile('lying.icc', adobe)
    const tagged = picture(64, 48).withIccProfile(icc)
    expect((await header('jpeg', await tagged.clone().jpeg().toBuffer())).color).toEqual(color)
    expect((await header('png', await tagged.clone().png().toBuffer())).color).toEqual(color)
    expect((await header('tiff', await tagged.clone().tiff().toBuffer())).color).toEqual(color)
    expect((await header('webp', await tagged.clone().webp().toBuffer())).color).toEqual(color)
    expect((await header('avif', await tagged.clone().avif().toBuffer())).color).toEqual(color)
  })

  test('none', async () => {
    const { color } = await header('jpeg', await picture().jpeg().toBuffer())
    expect(color).toEqual({ space: 'rgb', profile: 'none', profileName: null })
  })

  test('a chunk missing, or the whole malformed: other', async () => {
    const jpeg = await picture().jpeg().toBuffer()
    const broken = { space: 'rgb', profile: 'other', profileName: null }
    const missing = iccChunks(adobe, 200).slice(1)
    expect((await header('jpeg', withSegments(jpeg, missing))).color).toEqual(broken)
    const garbage = iccChunks(Buffer.alloc(500, 'A'))
    expect((await header('jpeg', withSegments(jpeg, garbage))).color).toEqual(broken)
  })

  test('a PNG may state sRGB without a profile, but not beside another', async () => {
    const png = await picture().png().toBuffer()
    const stated = chunk('sRGB', Buffer.from([0]))
    expect((await header('png', withChunks(png, [stated]))).color?.profile).toBe('sRGB')
    expect((await header('png', withChunks(png, [stated, iccp(writeProfile())]))).color?.profile).toBe('sRGB')
    expect((await header('png', withChunks(png, [stated, iccp(adobe)]))).color?.profile).toBe('other')
  })
})

test("no valid header is an error in the decoder's words", async () => {
  await expect(header('png', Buffer.from('\x89PNG\r\n\x1a\nnothing', 'latin1'))).rejects.toThrow()
})
