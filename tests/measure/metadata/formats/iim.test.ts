import { describe, expect, test } from 'vitest'
import { readIim } from '../../../../src/measure/metadata/formats/iim.ts'
import { UTF8, writeIim } from './iim-writer.ts'

describe('datasets', () => {
  test('texts in file order, blanks left out', () => {
    const iim = readIim(
      writeIim([
        [2, 80, 'Mika Thorne'],
        [2, 25, 'staff'],
        [2, 25, '  '],
        [2, 25, 'portrait'],
      ]),
    )
    expect(iim.values(80)).toEqual(['Mika Thorne'])
    expect(iim.values(25)).toEqual(['staff', 'portrait'])
    expect(iim.values(90)).toEqual([])
    expect(iim.damaged).toBe(false)
  })

  // IIM 4.2, 1:90: the escape sequence ESC % G of ISO/IEC 2022 stands for UTF-8.
  test('UTF-8 as stated, cut through a character at 32 bytes', () => {
    const name = 'A very long photographer name xØrsted'
    const cut = Buffer.from(name).subarray(0, 32)
    expect(cut.at(-1)).toBe(0xc3)
    const iim = readIim(writeIim([UTF8, [2, 80, cut]]))
    expect(iim.values(80)).toEqual(['A very long photographer name x'])
  })

  test('without a statement: UTF-8 where it is that, else Latin-1', () => {
    const iim = readIim(
      writeIim([
        [2, 80, 'Åsa'],
        [2, 90, Buffer.from('Åsa', 'latin1')],
      ]),
    )
    expect([...iim.values(80), ...iim.values(90)]).toEqual(['Åsa', 'Åsa'])
  })

  test('records other than the application record have no say', () => {
    expect(
      readIim(
        writeIim([
          [1, 80, 'x'],
          [3, 80, 'y'],
        ]),
      ).values(80),
    ).toEqual([])
  })

  // IIM 4.2, 1.5 b: bit 15 set, the low bits tell how many bytes the size takes.
  test('a size of four bytes', () => {
    const text = Buffer.from('Mika')
    const block = Buffer.concat([Buffer.from([0x1c, 2, 80, 0x80, 4, 0, 0, 0, 4]), text])
    expect(readIim(block).values(80)).toEqual(['Mika'])
  })

  // RFC 1321, A.5.
  test('digest', () => expect(readIim(Buffer.from('abc')).digest).toBe('900150983cd24fb0d6963f7d28e17f72'))
})

describe('malformed blocks', () => {
  test.each([
    ['something else', Buffer.from('hello'), true],
    ['a dataset longer than the block', Buffer.from([0x1c, 2, 80, 0, 9, 65]), true],
    ['a size of nine bytes', Buffer.from([0x1c, 2, 80, 0x80, 9, 0, 0, 0, 0, 0, 0, 0, 0, 1, 65]), true],
    ['a size of no bytes', Buffer.from([0x1c, 2, 80, 0x80, 0, 65]), true],
    ['a head cut off', Buffer.from([0x1c, 2]), true],
    ['padding', Buffer.concat([writeIim([[2, 80, 'Mika']]), Buffer.alloc(3)]), false],
    ['nothing', Buffer.alloc(0), false],
  ])('%s', (_, block, damaged) => expect(readIim(block).damaged).toBe(damaged))

  test('a million datasets: no more are read than a picture can need', () => {
    const block = Buffer.alloc(5_000_000)
    for (let at = 0; at < block.length; at += 5) block.set([0x1c, 2, 25, 0, 0], at)
    expect(readIim(block).damaged).toBe(true)
  })

  test('what comes before the damage is read', () => {
    const block = Buffer.concat([writeIim([[2, 80, 'Mika']]), Buffer.from('junk')])
    expect(readIim(block).values(80)).toEqual(['Mika'])
  })
})
