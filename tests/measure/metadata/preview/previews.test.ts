import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { measurePreview } from '../../../../src/measure/metadata/preview/previews.ts'
import { plain } from '../../samples.ts'
import { decoded, drawn, SITTERS, thumbnail } from './pictures.ts'

const [sitter] = SITTERS
if (!sitter) throw new Error('The drawn set has no sitters.')
const picture = () => drawn(sitter)
const preview = (where: string, data: Buffer | null) => ({ where, picture: data })

test('size and bytes, and what it shows', async () => {
  const content = await picture()
  const small = await thumbnail(content)
  expect(
    await measurePreview(preview('EXIF thumbnail', small), await decoded(sharp(content)), 1),
  ).toMatchObject({
    where: 'EXIF thumbnail',
    bytes: small.length,
    widthPx: 128,
    heightPx: 160,
    shows: 'same',
    doubt: null,
  })
})

// Orientation 1..8: what a viewer does with the stored pixels; made by sharp's autoOrient from a tag of its own.
describe('turned as the picture’s tag has it', () => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8])('%i', async (orientation) => {
    const stored = await picture()
    const shown = await sharp(await sharp(stored).withMetadata({ orientation }).png().toBuffer())
      .autoOrient()
      .png()
      .toBuffer()
    const pixels = await decoded(sharp(shown))
    const asStored = await measurePreview(
      preview('EXIF thumbnail', await thumbnail(stored)),
      pixels,
      orientation,
    )
    expect(asStored.shows).toBe('same')
    // From a program that stores the picture turned and its preview upright.
    const upright = await measurePreview(
      preview('EXIF thumbnail', await thumbnail(shown)),
      pixels,
      orientation,
    )
    expect(upright.shows).toBe('same')
    if (orientation === 1) return
    const forgotten = await measurePreview(preview('EXIF thumbnail', await thumbnail(stored)), pixels, 1)
    expect(forgotten.shows).toBe('turned')
  })
})

test('a page of a TIFF', async () => {
  // libvips halves a picture until it fits into a tile.
  const tiff = await sharp(await picture())
    .tiff({ pyramid: true, tile: true, tileWidth: 128, tileHeight: 128 })
    .toBuffer()
  const found = await measurePreview(
    { where: 'TIFF thumbnail', picture: tiff, page: 1 },
    await decoded(sharp(await picture())),
    1,
  )
  expect(found).toMatchObject({ bytes: null, widthPx: 200, heightPx: 250, shows: 'same' })
})

describe('unread', () => {
  const rows: readonly (readonly [string, () => Promise<Buffer | null>])[] = [
    ['a form that is not read', async () => null],
    [
      'no JPEG but an SVG',
      async () => Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>'),
    ],
    ['no JPEG but a PNG', async () => plain([1, 2, 3]).png().toBuffer()],
    ['a JPEG cut short', async () => (await plain([1, 2, 3]).jpeg().toBuffer()).subarray(0, 200)],
    ['noise', async () => Buffer.from('not a picture at all')],
    ['nothing', async () => Buffer.alloc(0)],
  ]
  test.each(rows)('%s', async (_, data) => {
    const found = await measurePreview(
      preview('EXIF thumbnail', await data()),
      await decoded(plain([9, 9, 9])),
      1,
    )
    expect(found).toMatchObject({ widthPx: null, shows: null, doubt: 'not-read' })
  })

  test('a preview of a billion pixels', async () => {
    const bomb = await plain([0, 0, 0], 16, 16).jpeg().toBuffer()
    const at = bomb.indexOf(Buffer.from([0xff, 0xc0]))
    bomb.writeUInt16BE(65_000, at + 5)
    bomb.writeUInt16BE(65_000, at + 7)
    const found = await measurePreview(preview('EXIF thumbnail', bomb), await decoded(plain([9, 9, 9])), 1)
    expect(found.doubt).toBe('not-read')
  })
})

// Of 25 million pixels, a plain one takes 72 MiB to decode and a progressive one 214.
test.each([
  [false, 'picture-not-decoded'],
  [true, 'not-read'],
])('a large preview, progressive %s: %s', async (progressive, doubt) => {
  const large = await plain([0, 0, 0], 16, 16).jpeg({ progressive }).toBuffer()
  const at = large.indexOf(Buffer.from([0xff, progressive ? 0xc2 : 0xc0]))
  large.writeUInt16BE(4999, at + 5)
  large.writeUInt16BE(4999, at + 7)
  expect((await measurePreview(preview('EXIF thumbnail', large), null, 1)).doubt).toBe(doubt)
})

test('a preview of thousands of scans', async () => {
  const content = await sharp(await picture())
    .jpeg({ progressive: true })
    .toBuffer()
  const scan = content.lastIndexOf(Buffer.from([0xff, 0xda]))
  const last = content.subarray(scan, -2)
  const bomb = Buffer.concat([
    content.subarray(0, -2),
    ...Array.from({ length: 1000 }, () => last),
    content.subarray(-2),
  ])
  const found = await measurePreview(preview('Photoshop thumbnail', bomb), await decoded(sharp(content)), 1)
  expect(found.doubt).toBe('not-read')
})

test('a gray preview of a gray picture', async () => {
  const gray = await sharp(await picture())
    .grayscale()
    .jpeg()
    .toBuffer()
  const small = await sharp(gray).resize(160, 160, { fit: 'inside' }).toColourspace('b-w').jpeg().toBuffer()
  expect((await sharp(small).metadata()).channels).toBe(1)
  const pixels = await decoded(sharp(gray))
  expect((await measurePreview(preview('EXIF thumbnail', small), pixels, 1)).shows).toBe('same')
})

test('a picture that was not decoded is not compared', async () => {
  const found = await measurePreview(preview('EXIF thumbnail', await thumbnail(await picture())), null, 1)
  expect(found).toMatchObject({ widthPx: 128, shows: null, doubt: 'picture-not-decoded' })
})
