import { describe, expect, test } from 'vitest'
import { statedSizes } from '../../../src/measure/metadata/stated-sizes.ts'
import { long, short } from '../file/exif/exif-writer.ts'
import { blocks } from './blocks/blocks-writer.ts'

const size = (width: number, height: number, onItsSide = false) => ({ width, height, onItsSide })
const exif = (width: number, height: number) =>
  blocks({ exif: { exif: [long(0xa002, width), long(0xa003, height)] } })

describe('against the pixels', () => {
  test.each([
    ['the same', exif(2400, 3000), size(2400, 3000), [false]],
    ['stale', exif(3552, 2000), size(1278, 720), [true]],
    ['one edge off', exif(2400, 3001), size(2400, 3000), [true]],
    ['turned pixels, stale tags', exif(3000, 2400), size(2400, 3000), [true]],
    ['turned by the tag, stated as stored', exif(3000, 2400), size(3000, 2400, true), [false]],
    ['turned by the tag, stated as shown', exif(2400, 3000), size(3000, 2400, true), [false]],
    ['zeros', exif(0, 0), size(2400, 3000), []],
    ['one number only', blocks({ exif: { exif: [long(0xa002, 2400)] } }), size(2400, 3000), []],
    ['as SHORT', blocks({ exif: { exif: [short(0xa002, 24), short(0xa003, 30)] } }), size(24, 30), [false]],
    ['nothing', blocks({}), size(24, 30), []],
  ])('%s', (_, read, pixels, stale) => {
    expect(statedSizes(read, pixels).map((one) => one.stale)).toEqual(stale)
  })
})

test('every place is named', () => {
  const read = blocks({
    exif: { main: [short(0x100, 1), short(0x101, 2)], exif: [short(0xa002, 3), short(0xa003, 4)] },
    xmp: `<exif:PixelXDimension>5</exif:PixelXDimension><exif:PixelYDimension>6</exif:PixelYDimension>
      <tiff:ImageWidth>7</tiff:ImageWidth><tiff:ImageLength>8</tiff:ImageLength>`,
  })
  expect(statedSizes(read, size(9, 9))).toEqual([
    { where: 'EXIF PixelXDimension x PixelYDimension', widthPx: 3, heightPx: 4, stale: true },
    { where: 'EXIF ImageWidth x ImageLength', widthPx: 1, heightPx: 2, stale: true },
    { where: 'XMP exif:PixelXDimension x exif:PixelYDimension', widthPx: 5, heightPx: 6, stale: true },
    { where: 'XMP tiff:ImageWidth x tiff:ImageLength', widthPx: 7, heightPx: 8, stale: true },
  ])
})

test('words in XMP state nothing', () => {
  const read = blocks({
    xmp: '<tiff:ImageWidth>wide</tiff:ImageWidth><tiff:ImageLength>1e999</tiff:ImageLength>',
  })
  expect(statedSizes(read, size(9, 9))).toEqual([])
})
