import { describe, expect, test } from 'vitest'
import { PRIVATE_PLACES } from '../../../src/measure/metadata/formats/private-places.ts'
import { placesOf } from '../../../src/measure/metadata/places.ts'
import { PRIVATE_ITEMS } from '../../../src/measure/schema/metadata-facts.ts'
import { ascii, bytes, type ExifRecipe, rational } from '../file/exif/exif-writer.ts'
import { type BlocksRecipe, blocks } from './blocks/blocks-writer.ts'
import { bag } from './formats/xmp-writer.ts'

const places = (recipe: BlocksRecipe) => placesOf(blocks(recipe), [])

/** One case for each place of each item: a block that holds nothing but it. */
const cases = Object.entries(PRIVATE_PLACES).flatMap(
  ([item, { exif = [], iim = [], xmp = [], png = [] }]) => [
    ...exif.map(([directory, tag, name, skip = 0]) => {
      const value = bytes(tag, Buffer.from(`${'\0'.repeat(skip)}secret value`))
      const recipe = { exif: { [directory]: [value] } as ExifRecipe }
      return [item, `EXIF ${name}`, recipe] as const
    }),
    ...iim.map(([dataset, name]) => {
      return [item, `IPTC 2:${dataset} ${name}`, { iim: [[2, dataset, 'secret value']] }] as const
    }),
    ...png.map(
      (keyword) => [item, `PNG text ${keyword}`, { texts: new Map([[keyword, 'secret value']]) }] as const,
    ),
    ...xmp.map((name) => {
      const element = name.replace('*', 'Exposure')
      const [prefix = ''] = name.split(':')
      return [
        item,
        `XMP ${name}`,
        { xmp: `<${element}${declaration(prefix)}>secret value</${element}>` },
      ] as const
    }),
  ],
)

function declaration(prefix: string): string {
  const more: Readonly<Record<string, string>> = {
    exifEX: 'http://cipa.jp/exif/1.0/',
    lr: 'http://ns.adobe.com/lightroom/1.0/',
    'mwg-rs': 'http://www.metadataworkinggroup.com/schemas/regions/',
    MP: 'http://ns.microsoft.com/photo/1.2/',
    'drone-dji': 'http://www.dji.com/drone-dji/1.0/',
    geo: 'http://www.w3.org/2003/01/geo/wgs84_pos#',
  }
  const uri = more[prefix]
  return uri === undefined ? '' : ` xmlns:${prefix}="${uri}"`
}

test.each(cases)(
  '%s in %s: told where it stands, never what it says',
  (item, where, recipe: BlocksRecipe) => {
    const found = places(recipe)
    expect(found).toContainEqual({ item, where: [where] })
    expect(JSON.stringify(found)).not.toContain('secret')
  },
)

test('an item in several places is told with all of them', () => {
  const found = places({
    exif: { gps: [rational(2, 55, 1, 2, 1, 19, 1), rational(4, 8, 1, 27, 1, 25, 1)] },
    xmp: '<exif:GPSLatitude>55,2.3N</exif:GPSLatitude><photoshop:City>Osprey</photoshop:City>',
    iim: [[2, 90, 'Osprey']],
  })
  expect(found).toEqual([
    { item: 'coordinates', where: ['EXIF GPSLatitude', 'EXIF GPSLongitude', 'XMP exif:GPSLatitude'] },
    { item: 'place-names', where: ['IPTC 2:90 City', 'XMP photoshop:City'] },
  ])
})

describe('nothing is told of', () => {
  test.each([
    [
      'a GPS directory with its version alone, as cameras without a receiver write',
      { exif: { gps: [bytes(0, Buffer.from([2, 3, 0, 0]))] } },
    ],
    ['coordinates of zero over zero', { exif: { gps: [rational(2, 0, 0, 0, 0, 0, 0)] } }],
    ['a serial number of spaces', { exif: { exif: [ascii(0xa431, '      ')] } }],
    [
      'a user comment of its character set alone',
      { exif: { exif: [bytes(0x9286, Buffer.from('ASCII\0\0\0   '))] } },
    ],
    ['an empty property', { xmp: '<photoshop:City/>' }],
    ['a blank dataset', { iim: [[2, 90, ' ']] as const }],
    ['nothing', {}],
  ])('%s', (_, recipe: BlocksRecipe) => expect(places(recipe)).toEqual([]))
})

test('the metadata of a component count', () => {
  const inner = '<rdf:li rdf:parseType="Resource"><aux:SerialNumber>1</aux:SerialNumber></rdf:li>'
  expect(places({ xmp: `<xmpMM:Pantry><rdf:Bag>${inner}</rdf:Bag></xmpMM:Pantry>` })).toEqual([
    { item: 'camera-serial', where: ['XMP aux:SerialNumber'] },
    { item: 'edit-history', where: ['XMP xmpMM:Pantry'] },
  ])
})

test('the raw file’s name is no develop setting', () => {
  expect(places({ xmp: '<crs:RawFileName>a.raw</crs:RawFileName>' })).toEqual([
    { item: 'original-name', where: ['XMP crs:RawFileName'] },
  ])
})

test('comments of the JPEG and previews', () => {
  expect(
    placesOf(blocks({ comments: 2 }), [{ where: 'EXIF thumbnail' }, { where: 'EXIF thumbnail' }]),
  ).toEqual([
    { item: 'comments', where: ['JPEG comment'] },
    { item: 'preview', where: ['EXIF thumbnail'] },
  ])
})

test('every item can be found', () => {
  const found = new Set(cases.map(([item]) => item))
  expect(PRIVATE_ITEMS.filter((item) => !found.has(item))).toEqual(['preview'])
  expect(places({ xmp: bag('Iptc4xmpExt:PersonInImage', 'Mika') })).toHaveLength(1)
})
