import { describe, expect, test } from 'vitest'
import { brandsOf, findBoxes, isAvifCut, readBoxes } from '../../../../src/measure/file/bytes/boxes.ts'
import { box } from './box-writer.ts'

describe('boxes', () => {
  test('one after the other', () => {
    const { boxes, cut } = readBoxes(Buffer.concat([box('free'), box('mdat', Buffer.from('abc'))]))
    expect(boxes).toEqual([
      { type: 'free', content: Buffer.alloc(0) },
      { type: 'mdat', content: Buffer.from('abc') },
    ])
    expect(cut).toBeNull()
  })

  test('size 0 reaches to the end, size 1 stands for 64 bits behind the type', () => {
    const open = box('mdat', Buffer.from('abc'))
    open.writeUInt32BE(0, 0)
    const boxes = [{ type: 'mdat', content: Buffer.from('abc') }]
    expect(readBoxes(open)).toEqual({ boxes, cut: null, end: open.length })
    const long = Buffer.concat([Buffer.from('\0\0\0\x01mdat'), Buffer.alloc(8), Buffer.from('abc')])
    long.writeBigUInt64BE(19n, 8)
    expect(readBoxes(long)).toEqual({ boxes, cut: null, end: long.length })
  })

  test('the one that runs past the end is named', () => {
    const whole = Buffer.concat([box('ftyp'), box('mdat', Buffer.from('abc'))])
    expect(readBoxes(whole.subarray(0, -1)).cut).toBe('mdat')
    const long = Buffer.concat([Buffer.from('\0\0\0\x01mdat'), Buffer.alloc(8, 0xff)])
    expect(readBoxes(long).cut).toBe('mdat')
    expect(readBoxes(long.subarray(0, 12)).cut).toBe('mdat')
  })

  test('a size smaller than its own head ends the walk', () => {
    const tiny = box('free')
    tiny.writeUInt32BE(3, 0)
    expect(readBoxes(tiny)).toEqual({ boxes: [], cut: 'free', end: 0 })
  })

  test('padding and pictures behind the last box are no boxes', () => {
    const whole = box('mdat', Buffer.from('abc'))
    for (const tail of [Buffer.alloc(100), Buffer.from('\xff\xd8\xff\xe0\0\x10JFIF', 'latin1')]) {
      const { boxes, end } = readBoxes(Buffer.concat([whole, tail]))
      expect({ types: boxes.map(({ type }) => type), end }).toEqual({ types: ['mdat'], end: whole.length })
    }
  })

  test('a million boxes are not kept', () => {
    expect(readBoxes(Buffer.concat(Array<Buffer>(20_000).fill(box('free')))).boxes).toHaveLength(10_000)
  })
})

test('a path leads through meta, which has version and flags before its children', () => {
  const colors = [box('colr', Buffer.from('one')), box('ispe'), box('colr', Buffer.from('two'))]
  const file = box('meta', Buffer.concat([Buffer.alloc(4), box('iprp', box('ipco', Buffer.concat(colors)))]))
  expect(findBoxes(file, ['meta', 'iprp', 'ipco', 'colr'])).toEqual([Buffer.from('one'), Buffer.from('two')])
  expect(findBoxes(file, ['meta', 'iprp', 'none', 'colr'])).toEqual([])
})

test('brands: the major one, then the compatible ones', () => {
  expect(brandsOf(box('ftyp', Buffer.from('avif\0\0\0\0mif1miaf')))).toEqual(['avif', 'mif1', 'miaf'])
  expect(brandsOf(box('moov'))).toEqual([])
  expect(brandsOf(Buffer.from('\xff\xff\xff\xffftypavif', 'latin1'))).toEqual(['avif'])
})

describe('an AVIF is cut short', () => {
  const head = box('ftyp', Buffer.from('avif\0\0\0\0'))
  const meta = box('meta', Buffer.alloc(4))
  const data = box('mdat', Buffer.from('abc'))

  test.each([
    ['not when all is there', Buffer.concat([head, meta, data]), false],
    [
      'not by what follows, which is no box',
      Buffer.concat([head, meta, data, Buffer.from('AAAAAAAAAA')]),
      false,
    ],
    [
      'not when its data lies in the description',
      Buffer.concat([head, box('meta', Buffer.concat([Buffer.alloc(4), box('idat')]))]),
      false,
    ],
    ['within its data', Buffer.concat([head, meta, data]).subarray(0, -1), true],
    ['before its data', Buffer.concat([head, meta]), true],
    ['within the head of a box', Buffer.concat([head, meta, data.subarray(0, 5)]), true],
    ['before its description', head, true],
  ])('%s', (_, file, cut) => {
    expect(isAvifCut(file)).toBe(cut)
  })
})
