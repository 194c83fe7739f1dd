import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { sniff } from '../../../../src/measure/file/container/sniff.ts'
import { isDecodable } from '../../../../src/measure/schema/formats.ts'
import { plain } from '../../samples.ts'
import { chunk, withChunks } from '../bytes/png-writer.ts'
import { writeTiff } from '../bytes/tiff-writer.ts'

const latin1 = (text: string) => Buffer.from(text, 'latin1')
const ftyp = (major: string, ...compatible: string[]) => {
  const box = latin1(`\0\0\0\0ftyp${major}\0\0\0\0${compatible.join('')}`)
  box.writeUInt32BE(box.length, 0)
  return box
}

describe('formats that may be decoded, as sharp writes them', () => {
  const picture = plain([200, 150, 120], 64, 48)
  test.each([
    ['jpeg', () => picture.clone().jpeg()],
    ['png', () => picture.clone().png()],
    ['tiff', () => picture.clone().tiff()],
    ['tiff', () => picture.clone().tiff({ bigtiff: true })],
    ['webp', () => picture.clone().webp()],
    ['avif', () => picture.clone().avif()],
  ] as const)('%s', async (format, encode) => {
    expect(sniff(await encode().toBuffer())).toBe(format)
    expect(isDecodable(format)).toBe(true)
  })
})

describe('pictures that may not', () => {
  test('gif as sharp writes it', async () => {
    expect(sniff(await plain([1, 2, 3]).gif().toBuffer())).toBe('gif')
  })

  // Leading bytes by each format's own definition.
  test.each([
    ['heic', ftyp('heic', 'mif1', 'heic')],
    ['heic', ftyp('mif1', 'heic')],
    ['bmp', latin1('BM\x46\0\0\0\0\0')],
    ['pdf', latin1('%PDF-1.7\n')],
    ['psd', latin1('8BPS\0\x01')],
    ['jxl', latin1('\xff\x0a\xfa\x1f')],
    ['jxl', latin1('\0\0\0\x0cJXL \r\n\x87\n')],
    ['jp2', latin1('\0\0\0\x0cjP  \r\n\x87\n')],
    ['raw', ftyp('crx ', 'crx ', 'isom')],
    ['raw', latin1('FUJIFILMCCD-RAW 0201')],
  ] as const)('%s', (format, content) => {
    expect(sniff(content)).toBe(format)
    expect(isDecodable(sniff(content))).toBe(false)
  })

  test('a WebP with frames, as sharp writes it', async () => {
    const frames = await plain([1, 2, 3], 8, 16).raw().toBuffer()
    const raw = { width: 8, height: 16, channels: 3, pageHeight: 8 } as const
    // Frames that are the same are merged.
    frames.fill(200, frames.length / 2)
    const animated = await sharp(frames, { raw })
      .webp({ delay: [100, 100] })
      .toBuffer()
    expect((await sharp(animated).metadata()).pages).toBe(2)
    expect(sniff(animated)).toBe('animated-webp')
  })

  test('a PNG with an animation control chunk before its data, not behind it', async () => {
    const png = await plain([1, 2, 3]).png().toBuffer()
    const control = chunk('acTL', Buffer.from([0, 0, 0, 2, 0, 0, 0, 0]))
    expect(sniff(withChunks(png, [control]))).toBe('animated-png')
    expect(sniff(Buffer.concat([png.subarray(0, -12), control, png.subarray(-12)]))).toBe('png')
    expect(sniff(png.subarray(0, 20))).toBe('png')
  })

  test('an AVIF that is a sequence first of all', () => {
    expect(sniff(ftyp('avis', 'avif'))).toBe('animated-avif')
    expect(sniff(ftyp('avif', 'avis'))).toBe('avif')
  })

  test("a camera's raw file in TIFF's clothes: DNGVersion, or a reduced copy first", () => {
    expect(sniff(writeTiff({ entries: [[0xc612, 4, [0x01040000]]] }).tiff)).toBe('raw')
    expect(sniff(writeTiff({ order: 'MM', entries: [[0xfe, 4, [1]]] }).tiff)).toBe('raw')
    expect(sniff(writeTiff({ entries: [[0xfe, 4, [0]]] }).tiff)).toBe('tiff')
  })

  test('a mif1 file that is AVIF by a compatible brand', () => {
    expect(sniff(ftyp('mif1', 'avif'))).toBe('avif')
  })
})

describe('svg, however it begins', () => {
  const SVG = '<svg xmlns="http://www.w3.org/2000/svg"/>'
  test.each([
    ['bare', latin1(SVG)],
    [
      'XML declaration, comment and doctype',
      latin1(`<?xml version="1.0"?>\n<!-- x -->\n<!DOCTYPE svg>\n${SVG}`),
    ],
    ['byte order mark and blanks', Buffer.from(`\ufeff \n${SVG}`)],
    ['UTF-16', Buffer.from(`\ufeff${SVG}`, 'utf16le')],
    ['a namespace prefix', latin1('<s:svg xmlns:s="http://www.w3.org/2000/svg"/>')],
    ['upper case', latin1('<SVG>')],
  ])('%s', (_, content) => {
    expect(sniff(content)).toBe('svg')
  })
})

describe('no picture', () => {
  test.each([
    ['text', latin1('Please find the portraits attached.')],
    ['HTML', latin1('<!doctype html><html></html>')],
    ['a film', ftyp('isom', 'mp42')],
    ['an archive', latin1('PK\x03\x04')],
    ['a sound in RIFF', latin1('RIFF\0\0\0\0WAVEfmt ')],
    ['one byte', latin1('\xff')],
    ['an ftyp box cut short', latin1('\0\0\0\x18ftyp')],
    ['nothing', Buffer.alloc(0)],
  ])('%s', (_, content) => {
    expect(sniff(content)).toBeNull()
  })

  test('a Git LFS pointer is told apart', () => {
    const pointer = 'version https://git-lfs.github.com/spec/v1\noid sha256:4d7a2146\nsize 12345\n'
    expect(sniff(latin1(pointer))).toBe('lfs-pointer')
  })
})
