import { describe, expect, test } from 'vitest'
import { readXmp, xmpText, xmpTexts } from '../../../../src/measure/metadata/formats/xmp.ts'
import { alt, bag, packet, seq } from './xmp-writer.ts'

describe('damaged', () => {
  test('no description, since a letter of its namespace is wrong', () => {
    const spoiled = packet(seq('dc:creator', 'Mika')).toString().replace('22-rdf-syntax', '22-rdf-syntux')
    expect(readXmp(Buffer.from(spoiled))).toMatchObject({ properties: new Map(), damaged: true })
  })

  test('a known prefix for an unknown namespace: the others are read all the same', () => {
    const spoiled = packet(seq('dc:creator', 'Mika')).toString().replace('com/photoshop/', 'com/phoposhop/')
    const read = readXmp(Buffer.from(spoiled))
    expect(read.damaged).toBe(true)
    expect(xmpTexts(read, 'dc:creator')).toEqual(['Mika'])
  })

  test('not a prefix of their own for a namespace of their own', () => {
    expect(readXmp(packet('<own:a xmlns:own="urn:own">x</own:a>')).damaged).toBe(false)
  })
})

// The forms that ISO 16684-1, 7 allows for one and the same content.
describe('forms', () => {
  test('a simple property as element and as attribute', () => {
    expect(xmpText(readXmp(packet('<xmp:Label>Pick</xmp:Label>')), 'xmp:Label')).toBe('Pick')
    expect(xmpText(readXmp(packet('', 'xmp:Label="Pick"')), 'xmp:Label')).toBe('Pick')
  })

  test('an address as resource', () => {
    const xmp = readXmp(packet('<xmpRights:WebStatement rdf:resource="urn:rights"/>'))
    expect(xmpText(xmp, 'xmpRights:WebStatement')).toBe('urn:rights')
  })

  // A pattern that takes the square of their number would not come to an end.
  test('a million NULs within a packet are refused', () => {
    const spoiled = Buffer.concat([Buffer.from('<a>'), Buffer.alloc(1_000_000), Buffer.from('</a>')])
    expect(() => readXmp(spoiled)).toThrow()
  })

  test('arrays', () => {
    const xmp = readXmp(
      packet(seq('dc:creator', 'Mika', 'Ada') + bag('dc:subject', 'staff', ' ', 'portrait')),
    )
    expect(xmpTexts(xmp, 'dc:creator')).toEqual(['Mika', 'Ada'])
    expect(xmpTexts(xmp, 'dc:subject')).toEqual(['staff', 'portrait'])
  })

  test('a text in languages: the default one, else the first', () => {
    const both = readXmp(packet(alt('dc:rights', { 'de-DE': 'Rechte', 'x-default': 'Rights' })))
    expect(xmpText(both, 'dc:rights')).toBe('Rights')
    expect(xmpText(readXmp(packet(alt('dc:rights', { de: 'Rechte', fr: 'Droits' }))), 'dc:rights')).toBe(
      'Rechte',
    )
    const blank = readXmp(packet(alt('dc:rights', { 'x-default': ' ', de: 'Rechte' })))
    expect(xmpText(blank, 'dc:rights')).toBe('Rechte')
  })

  test.each([
    [
      'a described node',
      '<xmpMM:DerivedFrom><rdf:Description stRef:documentID="xmp.did:1"/></xmpMM:DerivedFrom>',
    ],
    [
      'parseType',
      '<xmpMM:DerivedFrom rdf:parseType="Resource"><stRef:documentID>xmp.did:1</stRef:documentID></xmpMM:DerivedFrom>',
    ],
    ['attributes', '<xmpMM:DerivedFrom stRef:documentID="xmp.did:1"/>'],
  ])('a structure by %s', (_, element) => {
    const value = readXmp(packet(element)).properties.get('xmpMM:DerivedFrom')
    expect(value?.fields.get('stRef:documentID')?.text).toBe('xmp.did:1')
  })

  test('a value with qualifiers', () => {
    const xmp = readXmp(
      packet(
        '<dc:source><rdf:Description><rdf:value>Sitting</rdf:value><xmp:Label>q</xmp:Label></rdf:Description></dc:source>',
      ),
    )
    expect(xmpText(xmp, 'dc:source')).toBe('Sitting')
  })

  test('several descriptions, RDF without its envelope', () => {
    const text = packet('<xmp:Label>Pick</xmp:Label>').toString()
    const bare = text.replace(/^.*?<x:xmpmeta[^>]*>/s, '').replace(/<\/x:xmpmeta>.*$/s, '')
    expect(xmpText(readXmp(Buffer.from(bare)), 'xmp:Label')).toBe('Pick')
  })

  test('references are decoded, numbers and words stay texts', () => {
    const xmp = readXmp(packet(seq('dc:creator', 'Owl &amp; Lane', '007', 'true')))
    expect(xmpTexts(xmp, 'dc:creator')).toEqual(['Owl & Lane', '007', 'true'])
  })
})

describe('encodings', () => {
  test.each([
    ['UTF-8', (text: string) => Buffer.from(text)],
    ['UTF-16 little-endian', (text: string) => Buffer.from(`\ufeff${text}`, 'utf16le')],
    ['UTF-16 big-endian', (text: string) => Buffer.from(`\ufeff${text}`, 'utf16le').swap16()],
    ['padded with NULs', (text: string) => Buffer.from(`${text}\0\0\0\0`)],
  ])('%s', (_, encode) => {
    const text = packet(seq('dc:creator', 'Åsa')).toString().replaceAll('\ufeff', '')
    expect(xmpTexts(readXmp(encode(text)), 'dc:creator')).toEqual(['Åsa'])
  })
})

describe('names', () => {
  test('however deep, and only what holds something', () => {
    const xmp = readXmp(
      packet(
        '<xmpMM:Pantry><rdf:Bag><rdf:li rdf:parseType="Resource"><exif:GPSLatitude>55,2.3N</exif:GPSLatitude></rdf:li></rdf:Bag></xmpMM:Pantry><photoshop:City> </photoshop:City>',
      ),
    )
    expect([...xmp.names]).toEqual(['exif:GPSLatitude', 'xmpMM:Pantry'])
    expect(xmp.properties.has('photoshop:City')).toBe(false)
  })

  test('named after JavaScript', () => {
    const xmp = readXmp(packet('<xmp:__proto__>x</xmp:__proto__><xmp:constructor>y</xmp:constructor>'))
    expect(xmpText(xmp, 'xmp:__proto__')).toBe('x')
    expect(xmpText(xmp, 'xmp:toString')).toBeNull()
  })
})

test('XML that is no XMP holds nothing', () => {
  expect(readXmp(Buffer.from('<svg/>')).names.size).toBe(0)
})
