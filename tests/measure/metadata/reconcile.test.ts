import { describe, expect, test } from 'vitest'
import { conflictOf, reconcile } from '../../../src/measure/metadata/reconcile.ts'
import { ascii } from '../file/exif/exif-writer.ts'
import { type BlocksRecipe, blocks } from './blocks/blocks-writer.ts'
import { UTF8 } from './formats/iim-writer.ts'
import { alt, bag, seq } from './formats/xmp-writer.ts'

const LONG = 'A very long photographer name exceeding the limit'
// IIM 4.2, 2:80: at most 32 bytes.
const CUT = LONG.slice(0, 32)

const exif = { exif: { main: [ascii(0x013b, 'Exif name'), ascii(0x8298, 'Exif rights')] } }
const xmp = { xmp: seq('dc:creator', 'XMP name') + alt('dc:rights', { 'x-default': 'XMP rights' }) }
const iim: BlocksRecipe = { iim: [UTF8, [2, 80, 'IIM name'], [2, 116, 'IIM rights']] }

// MWG Guidelines for Handling Image Metadata 2.0 (2010), chapter 5: Exif where it is not blank; else XMP, unless the
// digest tells that IIM was changed after it.
describe('which place goes first', () => {
  const rows: readonly (readonly [string, BlocksRecipe, string])[] = [
    ['all three', { ...exif, ...xmp, ...iim }, 'Exif'],
    ['all three, IIM changed', { ...exif, ...xmp, ...iim, digest: 'other' }, 'Exif'],
    ['XMP and IIM, no digest', { ...xmp, ...iim }, 'XMP'],
    ['XMP and IIM, digest right', { ...xmp, ...iim, digest: 'right' }, 'XMP'],
    ['XMP and IIM, IIM changed', { ...xmp, ...iim, digest: 'other' }, 'IIM'],
    ['IIM alone', iim, 'IIM'],
    ['IIM alone, digest right', { ...iim, digest: 'right' }, 'IIM'],
    ['XMP alone', xmp, 'XMP'],
    ['a blank Exif', { ...xmp, exif: { main: [ascii(0x013b, '   '), ascii(0x8298, ' ')] } }, 'XMP'],
  ]
  test.each(rows)('%s', (_, recipe, place) => {
    expect(reconcile(blocks(recipe), 'creator')).toEqual([`${place} name`])
    expect(reconcile(blocks(recipe), 'copyright')).toEqual([`${place} rights`])
  })

  test('PNG text comes last', () => {
    const texts = new Map([['Author', 'PNG name']])
    expect(reconcile(blocks({ texts }), 'creator')).toEqual(['PNG name'])
    expect(reconcile(blocks({ texts, ...iim }), 'creator')).toEqual(['IIM name'])
  })

  test('nothing anywhere', () => expect(reconcile(blocks({}), 'creator')).toEqual([]))
})

describe('what IIM had to cut short', () => {
  test('is taken whole from XMP', () => {
    const recipe: BlocksRecipe = { xmp: seq('dc:creator', LONG), iim: [[2, 80, CUT]], digest: 'other' }
    expect(reconcile(blocks(recipe), 'creator')).toEqual([LONG])
  })
  test('is no conflict', () => {
    expect(conflictOf(blocks({ xmp: seq('dc:creator', LONG), iim: [[2, 80, CUT]] }), 'creator')).toBeNull()
    expect(
      conflictOf(blocks({ exif: { main: [ascii(0x013b, LONG)] }, iim: [[2, 80, CUT]] }), 'creator'),
    ).toBeNull()
  })
  test('at a character of several bytes is cut before it', () => {
    const name = `${'x'.repeat(30)}😀 and more`
    const recipe: BlocksRecipe = { xmp: seq('dc:creator', name), iim: [UTF8, [2, 80, 'x'.repeat(30)]] }
    expect(conflictOf(blocks(recipe), 'creator')).toBeNull()
  })
  test('but a short beginning is another name', () => {
    const recipe: BlocksRecipe = { xmp: seq('dc:creator', 'Mika Thorne'), iim: [[2, 80, 'Mika']] }
    expect(conflictOf(blocks(recipe), 'creator')?.values).toEqual([
      { where: 'IPTC 2:80 By-line', values: ['Mika'] },
      { where: 'XMP dc:creator', values: ['Mika Thorne'] },
    ])
  })
})

describe('lists', () => {
  test('Exif holds several creators in one text', () => {
    const recipe = { exif: { main: [ascii(0x013b, 'Mika Thorne; Ada Lund')] } }
    expect(reconcile(blocks(recipe), 'creator')).toEqual(['Mika Thorne', 'Ada Lund'])
    const both = { ...recipe, xmp: seq('dc:creator', 'Ada Lund', 'Mika Thorne') }
    expect(conflictOf(blocks(both), 'creator')).toBeNull()
  })
  test('keywords', () => {
    const recipe: BlocksRecipe = {
      xmp: bag('dc:subject', 'staff', 'portrait'),
      iim: [
        [2, 25, 'portrait'],
        [2, 25, 'staff'],
      ],
    }
    expect(reconcile(blocks(recipe), 'keywords')).toEqual(['staff', 'portrait'])
    expect(conflictOf(blocks(recipe), 'keywords')).toBeNull()
  })
})

describe('conflicts', () => {
  test('all places are told', () => {
    expect(conflictOf(blocks({ ...exif, ...xmp, ...iim }), 'copyright')).toEqual({
      field: 'copyright',
      values: [
        { where: 'EXIF Copyright', values: ['Exif rights'] },
        { where: 'IPTC 2:116 Copyright Notice', values: ['IIM rights'] },
        { where: 'XMP dc:rights', values: ['XMP rights'] },
      ],
    })
  })
  test('spacing and Unicode form are none', () => {
    const recipe: BlocksRecipe = {
      xmp: seq('dc:creator', 'Zoe\u0308  Lund'),
      iim: [UTF8, [2, 80, 'Zo\u00eb Lund']],
    }
    expect(conflictOf(blocks(recipe), 'creator')).toBeNull()
  })
  test('photographer and editor in Exif are one notice', () => {
    const recipe = { exif: { main: [ascii(0x8298, 'Mika Thorne\0Osprey Lane')] } }
    expect(reconcile(blocks(recipe), 'copyright')).toEqual(['Mika Thorne; Osprey Lane'])
  })
})
