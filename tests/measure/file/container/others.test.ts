import { execFileSync, spawnSync } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Sharp } from 'sharp'
import { describe, expect, test } from 'vitest'
import { readContainer } from '../../../../src/measure/file/container/container.ts'
import { othersIn } from '../../../../src/measure/file/container/others.ts'
import { DECODABLE, type Decodable } from '../../../../src/measure/schema/formats.ts'
import { debianTool } from '../../../outside/debian.ts'
import { noise, temporaryFolder } from '../../samples.ts'
import { box } from '../bytes/box-writer.ts'
import { segment, withSegments } from '../bytes/jpeg-writer.ts'

const saved = (format: Decodable, picture: Sharp = noise(40, 50)) => picture.toFormat(format).toBuffer()
const GAP = Buffer.alloc(100)
const ZIP = debianTool('zip', 'zip')
const UNZIP = debianTool('unzip', 'unzip')
const TIFFCP = debianTool('libtiff-tools', 'tiffcp')
const TIFFSET = debianTool('libtiff-tools', 'tiffset')

/** An archive by Info-ZIP's zip; where that is not installed, the record that ends an empty one. */
function archive(): Buffer {
  if (!ZIP) return Buffer.concat([Buffer.from('PK\x05\x06', 'latin1'), Buffer.alloc(18)])
  const folder = temporaryFolder()
  writeFileSync(join(folder, 'letter.txt'), 'Dear marketing')
  execFileSync(ZIP, ['-q', 'letters.zip', 'letter.txt'], { cwd: folder })
  return readFileSync(join(folder, 'letters.zip'))
}

test.each(DECODABLE)(
  'a %s of one picture holds nothing else, with alpha, preview and profile',
  async (format) => {
    const rich = noise(200, 250)
      .ensureAlpha(0.5)
      .withIccProfile('p3')
      .withExif({ IFD0: { Artist: 'A' } })
    for (const content of [await saved(format), await saved(format, rich)])
      expect(othersIn(format, content)).toEqual([])
  },
)

describe('behind the end of the picture', () => {
  // A second AVIF, or a film, in boxes is no tail of the first: it is damage, or told as what it is.
  const inBoxes = (format: Decodable) => format === 'avif'
  test.each(DECODABLE)('of a %s, each format and an archive', async (format) => {
    const first = await saved(format)
    for (const other of DECODABLE.filter((one) => !(inBoxes(format) && inBoxes(one)))) {
      const second = await saved(other)
      expect(othersIn(format, Buffer.concat([first, second])), other).toEqual([
        { what: other, count: 1, bytes: second.length },
      ])
      expect(othersIn(format, Buffer.concat([first, GAP, second])), other).toEqual([
        { what: other, count: 1, bytes: second.length },
      ])
    }
    const zip = archive()
    expect(othersIn(format, Buffer.concat([first, zip]))).toEqual([
      { what: 'zip', count: 1, bytes: zip.length },
    ])
    const film = Buffer.concat([box('ftyp', Buffer.from('isom\0\0\0\0isom')), box('mdat', GAP)])
    if (inBoxes(format)) return
    expect(othersIn(format, Buffer.concat([first, film]))).toEqual([
      { what: 'movie', count: 1, bytes: film.length },
    ])
  })

  // CIPA DC-007 (Multi-Picture Format): further pictures stand behind the end of the first, listed in an APP2 segment.
  test('the pictures of a multi-picture file are told once', async () => {
    const [first, second] = [await saved('jpeg'), await saved('jpeg', noise(20, 20))]
    expect(othersIn('jpeg', Buffer.concat([first, second, second]))).toEqual([
      { what: 'jpeg', count: 1, bytes: 2 * second.length },
    ])
  })

  test('padding, a vendor’s data and three bytes that come by chance are nothing', async () => {
    const first = await saved('jpeg')
    const chance = Buffer.from('\xff\xd8\xffmaker\xff\xd8\xff', 'latin1')
    for (const tail of [GAP, Buffer.from('vendor data'), chance]) {
      expect(othersIn('jpeg', Buffer.concat([first, tail]))).toEqual([])
    }
  })
})

test('a film beside the picture of an AVIF', async () => {
  const content = Buffer.concat([await saved('avif'), box('moov', GAP)])
  expect(othersIn('avif', content)).toEqual([{ what: 'movie', count: 1, bytes: null }])
  const second = Buffer.concat([
    await saved('avif'),
    box('ftyp', Buffer.from('isom\0\0\0\0isom')),
    box('mdat', GAP),
  ])
  expect(othersIn('avif', second)).toEqual([{ what: 'movie', count: 1, bytes: null }])
})

// ISO 32000-1, Annex H: readers take a document for one that begins within the first 1024 bytes.
test('a document that begins within the header of a picture', async () => {
  const jpeg = await saved('jpeg')
  const comment = segment(0xfe, Buffer.from('%PDF-1.4\n1 0 obj'))
  expect(othersIn('jpeg', withSegments(jpeg, [comment]))).toEqual([{ what: 'pdf', count: 1, bytes: null }])
  const late = [segment(0xfe, Buffer.alloc(2000, 'A')), comment]
  expect(othersIn('jpeg', withSegments(jpeg, late))).toEqual([])
})

test.each(DECODABLE)('a %s that is an archive to programs which read from the end', async (format) => {
  const content = Buffer.concat([await saved(format), archive()])
  expect(othersIn(format, content).map(({ what }) => what)).toEqual(['zip'])
})

// What makes it dangerous: another program takes it for an archive, with bytes before it.
test.skipIf(!UNZIP)('such a file opens as an archive', async () => {
  const path = join(temporaryFolder(), 'both.jpg')
  writeFileSync(path, Buffer.concat([await saved('jpeg'), archive()]))
  const { stdout } = spawnSync(UNZIP as string, ['-l', path], { encoding: 'utf8' })
  expect(stdout).toContain('letter.txt')
})

describe.skipIf(!TIFFCP || !TIFFSET)('pages of a TIFF', () => {
  const copied = (...args: readonly string[]) => {
    const folder = temporaryFolder()
    const path = join(folder, 'all.tif')
    execFileSync(TIFFCP as string, [...args, path])
    return readFileSync(path)
  }
  const page = async (picture: Sharp) => {
    const path = join(temporaryFolder(), 'page.tif')
    writeFileSync(path, await saved('tiff', picture))
    return path
  }

  test.each([
    ['a classic one', []],
    ['a BigTIFF', ['-8']],
  ])('%s of three pages by libtiff’s tiffcp', async (_, options) => {
    const one = await page(noise(40, 50))
    expect(othersIn('tiff', copied(...options, one))).toEqual([])
    expect(othersIn('tiff', copied(...options, one, one, one))).toEqual([
      { what: 'page', count: 2, bytes: null },
    ])
  })

  test('a reduced copy is a preview, which is compared elsewhere', async () => {
    const one = await page(noise(40, 50))
    const both = copied(one, one)
    const path = join(temporaryFolder(), 'both.tif')
    writeFileSync(path, both)
    expect(othersIn('tiff', both)).toHaveLength(1)
    // TIFF 6.0, section 8: NewSubfileType, tag 254, bit 0.
    execFileSync(TIFFSET as string, ['-d', '1', '-s', '254', '1', path])
    expect(othersIn('tiff', readFileSync(path))).toEqual([])
  })
})

describe('items of an AVIF', () => {
  /** ISO/IEC 14496-12, 8.11.6.2: version 2, number, protection, type, name. */
  const item = (id: number, type: string, flags = 0) =>
    box(
      'infe',
      Buffer.concat([Buffer.from([2, 0, 0, flags, 0, id, 0, 0]), Buffer.from(`${type}\0`, 'latin1')]),
    )
  const reference = (type: string, from: number, ...to: number[]) =>
    box(type, Buffer.from([0, from, 0, to.length, ...to.flatMap((id) => [0, id])]))
  const avif = (items: Buffer[], references: Buffer[] = []) =>
    Buffer.concat([
      box('ftyp', Buffer.from('avif\0\0\0\0avif')),
      box(
        'meta',
        Buffer.concat([
          Buffer.alloc(4),
          box('pitm', Buffer.from([0, 0, 0, 0, 0, 1])),
          box('iinf', Buffer.concat([Buffer.from([0, 0, 0, 0, 0, items.length]), ...items])),
          box('iref', Buffer.concat([Buffer.alloc(4), ...references])),
        ]),
      ),
    ])

  test.each([
    ['one more picture', avif([item(1, 'av01'), item(2, 'av01')]), 1],
    ['one more picture in another coding', avif([item(1, 'av01'), item(2, 'jpeg')]), 1],
    ['its transparency', avif([item(1, 'av01'), item(2, 'av01')], [reference('auxl', 2, 1)]), 0],
    ['a thumbnail', avif([item(1, 'av01'), item(2, 'av01')], [reference('thmb', 2, 1)]), 0],
    ['its tiles', avif([item(1, 'grid'), item(2, 'av01'), item(3, 'av01')], [reference('dimg', 1, 2, 3)]), 0],
    ['metadata', avif([item(1, 'av01'), item(2, 'Exif'), item(3, 'mime')]), 0],
    ['a hidden picture', avif([item(1, 'av01'), item(2, 'av01', 1)]), 0],
  ])('%s', (_, content, count) => {
    expect(othersIn('avif', content)).toEqual(count > 0 ? [{ what: 'item', count, bytes: null }] : [])
  })
})

test.each(DECODABLE)('a %s cut anywhere never throws', async (format) => {
  const content = Buffer.concat([await saved(format), await saved('jpeg'), archive()])
  for (let length = 0; length < content.length; length += 7)
    expect(Array.isArray(readContainer(format, content.subarray(0, length)).others)).toBe(true)
})
