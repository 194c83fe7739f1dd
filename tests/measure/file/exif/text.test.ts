import { describe, expect, test } from 'vitest'
import { clipped, clippedList, decodeText } from '../../../../src/measure/file/exif/text.ts'

describe('decoding', () => {
  test.each([
    ['UTF-8', Buffer.from('Åsa Bergström', 'utf8'), 'Åsa Bergström'],
    ['Latin-1', Buffer.from('Åsa Bergström', 'latin1'), 'Åsa Bergström'],
    // A lead byte of UTF-8 at the end must not be taken for a character that was cut through.
    ['Latin-1 that ends in an accent', Buffer.from('José', 'latin1'), 'José'],
    // WHATWG Encoding Standard: 0x80 is the euro sign in windows-1252, a control character in Latin-1.
    ['Windows-1252', Buffer.from([0x80, 0x20, 0x35]), '€ 5'],
    ['padding', Buffer.from('Osprey\0\0\0'), 'Osprey'],
    ['nothing', Buffer.alloc(0), ''],
    ['a NUL inside', Buffer.from('one\0two\0'), 'one\0two'],
  ])('%s', (_, bytes, text) => expect(decodeText(bytes)).toBe(text))

  test('stated UTF-8 that was cut through a character', () => {
    expect(decodeText(Buffer.from('Bergström').subarray(0, 7), true)).toBe('Bergst' + 'r')
    expect(decodeText(Buffer.from('Bergström').subarray(0, 8), true)).toBe('Bergstr')
  })

  test('stated UTF-8 that is none shows it', () => {
    expect(decodeText(Buffer.from('Jos\xe9e', 'latin1'), true)).toBe('Jos\ufffde')
  })
})

describe('cutting', () => {
  test('2,000 characters stay, one more does not', () => {
    expect(clipped('x'.repeat(2000))).toHaveLength(2000)
    expect(clipped('x'.repeat(2001))).toHaveLength(2000)
  })

  test('no character is cut through', () => {
    const text = clipped('😀'.repeat(3000))
    expect(Array.from(text)).toHaveLength(2000)
    expect(text.endsWith('😀')).toBe(true)
  })

  test('lists: blanks left out, each once, at most 100', () => {
    expect(clippedList([' a ', '', 'b', 'a', '  '])).toEqual(['a', 'b'])
    expect(clippedList(Array.from({ length: 300 }, (_, n) => `k${n}`))).toHaveLength(100)
  })
})
