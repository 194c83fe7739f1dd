import { deflateSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { iccOfPng } from '../../../../src/measure/file/container/iccp.ts'

const chunkOf = (...parts: readonly (string | Buffer)[]) => [
  { type: 'iCCP', data: Buffer.concat(parts.map((part) => Buffer.from(part as string, 'latin1'))) },
]
const packed = deflateSync(Buffer.from('a profile'))

// PNG, third edition, 11.3.2.3.
test('a profile', () => {
  expect(iccOfPng(chunkOf('name\0\0', packed))).toEqual(Buffer.from('a profile'))
  expect(iccOfPng([{ type: 'gAMA', data: Buffer.alloc(4) }])).toBeNull()
})

test.each([
  ['no name', chunkOf('name')],
  ['another compression', chunkOf('name\0\x80', packed)],
  ['packed data that is none', chunkOf('name\0\0junk')],
  ['a wrong checksum', chunkOf('name\0\0', packed.subarray(0, -1), '\0')],
  ['no end', chunkOf('name\0\0', packed.subarray(0, -5))],
  ['a hundred megabytes', chunkOf('name\0\0', deflateSync(Buffer.alloc(100_000_000)))],
])('broken: %s', (_, chunks) => expect(iccOfPng(chunks)).toBe('broken'))
