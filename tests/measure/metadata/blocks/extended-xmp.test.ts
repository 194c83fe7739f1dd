import { describe, expect, test, vi } from 'vitest'
import { assembleXmp } from '../../../../src/measure/metadata/blocks/extended-xmp.ts'

const DIGEST = '0123456789ABCDEF0123456789ABCDEF'

/** ISO 16684-3: digest, full length, offset, data. */
function portion(length: number, offset: number, data: string, digest = DIGEST): Buffer {
  const numbers = Buffer.alloc(8)
  numbers.writeUInt32BE(length)
  numbers.writeUInt32BE(offset, 4)
  return Buffer.concat([Buffer.from(digest), numbers, Buffer.from(data)])
}

test('portions in any order', () => {
  const { packets, unreadable } = assembleXmp([portion(6, 3, 'def'), portion(6, 0, 'abc')])
  expect(packets.map(({ packet }) => packet.toString())).toEqual(['abcdef'])
  expect(unreadable).toEqual([])
})

test('two packets', () => {
  const other = DIGEST.toLowerCase()
  const { packets } = assembleXmp([portion(3, 0, 'abc'), portion(2, 0, 'xy', other)])
  expect(packets.map(({ packet }) => packet.toString())).toEqual(['abc', 'xy'])
})

test('thousands of packets that claim a megabyte each take no memory', () => {
  const portions = Array.from({ length: 5000 }, (_, n) =>
    portion(1024 * 1024, 0, 'abc', String(n).padStart(32, '0')),
  )
  const alloc = vi.spyOn(Buffer, 'alloc')
  expect(assembleXmp(portions).packets).toEqual([])
  expect(alloc).not.toHaveBeenCalled()
  alloc.mockRestore()
})

describe('unreadable', () => {
  test.each([
    ['one is missing', [portion(6, 0, 'abc')], 'damaged'],
    ['one comes twice', [portion(3, 0, 'abc'), portion(3, 0, 'abc')], 'damaged'],
    ['one lies beyond the length', [portion(3, 2, 'abc')], 'damaged'],
    ['one is too short to be one', [Buffer.from(DIGEST)], 'damaged'],
    ['four gigabytes are claimed', [portion(0xffffffff, 0, 'abc')], 'too-large'],
  ] as const)('%s', (_, portions, why) => {
    expect(assembleXmp(portions)).toEqual({ packets: [], unreadable: [{ where: 'XMP (extended)', why }] })
  })
})
