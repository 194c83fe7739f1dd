import { expect, test } from 'vitest'
import { findBlocks } from '../../../../src/measure/metadata/blocks/find-blocks.ts'
import { chunk, withChunks } from '../../file/bytes/png-writer.ts'
import { ascii, writeExif } from '../../file/exif/exif-writer.ts'
import { patched, plain } from '../../samples.ts'
import { packet, seq } from '../formats/xmp-writer.ts'

const XMP = packet(seq('dc:creator', 'Mika Thorne'))
const DAMAGED = { why: 'damaged' } as const

const tagged = () =>
  plain([200, 150, 120])
    .withExif({ IFD0: { Artist: 'Mika Thorne' } })
    .withXmp(XMP.toString())

test.each(['webp', 'avif', 'tiff', 'png'] as const)('%s: what is found is no stray', async (format) => {
  expect((await findBlocks(format, await tagged().toFormat(format).toBuffer())).unreadable).toEqual([])
})

test('AVIF: items whose references are damaged are not handed over, and are told', async () => {
  const avif = await tagged().avif().toBuffer()
  const raw = await findBlocks(
    'avif',
    patched(avif, (copy) => copy.write('zzzz', copy.indexOf('iref'), 'latin1')),
  )
  expect([raw.exif, raw.xmp]).toEqual([[], []])
  expect(raw.unreadable).toEqual([
    { where: 'EXIF', ...DAMAGED },
    { where: 'XMP', ...DAMAGED },
  ])
})

test('TIFF: a packet in a tag of another number', async () => {
  const tiff = await tagged().tiff().toBuffer()
  const entry = Buffer.from([0xbc, 0x02, 0x01, 0x00])
  expect(tiff.includes(entry)).toBe(true)
  const raw = await findBlocks(
    'tiff',
    patched(tiff, (copy) => copy.writeUInt16LE(0x8abc, copy.indexOf(entry))),
  )
  expect(raw.unreadable).toEqual([{ where: 'XMP', ...DAMAGED }])
})

test('PNG: a block in a chunk of a kind that is not read', async () => {
  const exif = writeExif({ main: [ascii(0x013b, 'Mika Thorne')] })
  const png = withChunks(await plain([1, 2, 3]).png().toBuffer(), [chunk('prVt', exif)])
  const raw = await findBlocks('png', png)
  expect(raw.unreadable).toEqual([{ where: 'EXIF', ...DAMAGED }])
  expect(raw.opaque).toEqual([{ where: 'PNG chunks of other kinds', bytes: exif.length }])
})
