import { expect, test } from 'vitest'
import { storedPreviews } from '../../../../src/measure/metadata/preview/stored-previews.ts'
import { bytes, long, short } from '../../file/exif/exif-writer.ts'
import { blocks } from '../blocks/blocks-writer.ts'
import { resource } from '../formats/iim-writer.ts'

const JPEG = Buffer.from([0xff, 0xd8, 0xff, 0xd9])

test('of Exif', () => {
  expect(storedPreviews(blocks({ exif: { preview: JPEG } }))).toEqual([
    { where: 'EXIF thumbnail', picture: JPEG },
  ])
})

test('of Exif, uncompressed', () => {
  const recipe = { exif: { thumbnail: [short(0x103, 1), long(0x111, 8)] } }
  expect(storedPreviews(blocks(recipe))).toEqual([{ where: 'EXIF thumbnail', picture: null }])
})

test('a second directory without a picture is none', () => {
  expect(storedPreviews(blocks({ exif: { thumbnail: [short(0x128, 2)] } }))).toEqual([])
  expect(storedPreviews(blocks({ exif: { thumbnail: [long(0x201, 8), long(0x202, 0)] } }))).toEqual([])
})

test('one that lies beyond the block can not be read', () => {
  const recipe = { exif: { thumbnail: [long(0x201, 8), long(0x202, 100_000)] } }
  expect(storedPreviews(blocks(recipe))).toEqual([{ where: 'EXIF thumbnail', picture: null }])
})

test('of Exif, where a directory other than the thumbnail’s leads to it', () => {
  for (const directory of ['main', 'exif']) {
    const recipe = { exif: { [directory]: [long(0x201, 0), long(0x202, 4)] } }
    expect(storedPreviews(blocks(recipe)), directory).toEqual([
      { where: 'EXIF preview', picture: Buffer.from('II\x2a\0', 'latin1') },
    ])
  }
})

test('of Exif, in further directories, which are not read', () => {
  const recipe = { exif: { main: [long(330, 8, 8)] } }
  expect(storedPreviews(blocks(recipe))).toEqual([{ where: 'TIFF tag 330', picture: null }])
})

test('of XMP, in base 64', () => {
  const image = `<xmpGImg:image>${JPEG.toString('base64')}</xmpGImg:image>`
  const xmp = `<xmp:Thumbnails><rdf:Alt><rdf:li rdf:parseType="Resource">${image}</rdf:li></rdf:Alt></xmp:Thumbnails>`
  expect(storedPreviews(blocks({ xmp }))).toEqual([{ where: 'XMP thumbnail', picture: JPEG }])
})

test('of XMP, within the metadata of a component', () => {
  const image = `<xmpGImg:image>${JPEG.toString('base64')}</xmpGImg:image>`
  const thumbnails = `<xmp:Thumbnails><rdf:Alt><rdf:li rdf:parseType="Resource">${image}</rdf:li></rdf:Alt></xmp:Thumbnails>`
  const xmp = `<xmpMM:Pantry><rdf:Bag><rdf:li rdf:parseType="Resource">${thumbnails}</rdf:li></rdf:Bag></xmpMM:Pantry>`
  expect(storedPreviews(blocks({ xmp }))).toEqual([{ where: 'XMP thumbnail', picture: JPEG }])
})

test('pictures as values of tags and of image resources that have another meaning or none', () => {
  const found = storedPreviews(
    blocks({
      exif: { main: [bytes(0xc5d8, JPEG), bytes(0xc5d9, Buffer.from('letter'))] },
      resources: [resource(4000, JPEG), resource(4001, Buffer.from('letter'))],
    }),
  )
  expect(found).toEqual([
    { where: 'EXIF tag 50648', picture: JPEG },
    { where: 'Photoshop resource 4000', picture: JPEG },
  ])
})

test('at most eight', () => {
  const previews = Array.from({ length: 100 }, () => ({ where: 'JFXX thumbnail', picture: JPEG }))
  expect(storedPreviews(blocks({ previews }))).toHaveLength(8)
})
