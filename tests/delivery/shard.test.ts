import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { isInShard, listingHash, parseShard } from '../../src/delivery/shard.ts'

test.each([
  ['2/5', { number: 2, of: 5 }],
  ['1/1', { number: 1, of: 1 }],
  ['1000/1000', { number: 1000, of: 1000 }],
  ['0/5', null],
  ['6/5', null],
  ['1/1001', null],
  ['2', null],
  ['2/', null],
  ['-1/5', null],
  ['2/5 ', null],
  ['2/5/7', null],
  ['', null],
])('%j', (text, shard) => {
  expect(parseShard(text)).toEqual(shard)
})

const PATHS = Array.from({ length: 1000 }, (_, i) => `print/Lund-Bjørn_${i}.jpg`)

test.each([1, 2, 3, 7])('of %i parts, each file is in exactly one, and the parts are of a size', (of) => {
  const parts = Array.from({ length: of }, (_, i) =>
    PATHS.filter((path) => isInShard(path, { number: i + 1, of })),
  )
  expect(parts.flat().sort()).toEqual([...PATHS].sort())
  for (const part of parts) expect(Math.abs(part.length - PATHS.length / of)).toBeLessThan(60)
})

// FIPS 180-4, SHA-256 of "abc": ba7816bf..., and 0xba7816bf is 3128432319.
test('the split is by the first four bytes of SHA-256', () => {
  expect(isInShard('abc', { number: (3128432319 % 7) + 1, of: 7 })).toBe(true)
})

test('a listing differs when a name moves from one path to the next', () => {
  const hash = createHash('sha256').update('a\0b\0').digest('hex')
  expect(listingHash(['a', 'b'])).toBe(hash)
  expect(listingHash(['ab'])).not.toBe(hash)
})
