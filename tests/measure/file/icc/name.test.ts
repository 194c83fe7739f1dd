import { describe, expect, test } from 'vitest'
import { readName } from '../../../../src/measure/file/icc/name.ts'
import { desc, mluc, u32 } from './icc-writer.ts'

describe('name', () => {
  test('version 2: the ASCII text without its closing zero', () => {
    expect(readName(desc('sRGB IEC61966-2.1'))).toBe('sRGB IEC61966-2.1')
  })

  test('version 4: English first, wherever it stands', () => {
    // cspell:disable-next-line
    const texts = { deDE: 'Farbraum', enUS: 'Color space', enGB: 'Colour space', frFR: 'Espace' }
    expect(readName(mluc(texts))).toBe('Color space')
  })

  test('version 4 without English: the first; letters beyond ASCII are kept', () => {
    expect(readName(mluc({ jaJP: '色空間', deDE: 'Farbraum' }))).toBe('色空間')
  })

  test('blank or empty is none', () => {
    expect(readName(desc(''))).toBeNull()
    expect(readName(desc('  '))).toBeNull()
    expect(readName(mluc({}))).toBeNull()
  })

  test('is cut at 200 characters and at a zero', () => {
    expect(readName(desc('x'.repeat(5000)))).toHaveLength(200)
    expect(readName(desc('name\0hidden'))).toBe('name')
  })
})

describe('malformed tags', () => {
  test('another type has no name', () => {
    expect(readName(Buffer.from('text\0\0\0\0name'))).toBeNull()
  })

  test('a length beyond the end gives what is there', () => {
    const tag = desc('name')
    tag.writeUInt32BE(0xffffffff, 8)
    expect(readName(tag)).toBe('name')
  })

  test('a count of four thousand million records ends at once', () => {
    const tag = Buffer.concat([Buffer.from('mluc\0\0\0\0'), u32(0xffffffff, 12), Buffer.alloc(60)])
    expect(readName(tag)).toBeNull()
  })

  test('records of another size than 12 are not read', () => {
    const tag = mluc({ enUS: 'name' })
    tag.writeUInt32BE(0, 12)
    expect(readName(tag)).toBeNull()
  })

  test.each(['desc', 'mluc'])('%s: nothing behind the type', (type) => {
    expect(() => readName(Buffer.from(type))).toThrow(RangeError)
  })
})
