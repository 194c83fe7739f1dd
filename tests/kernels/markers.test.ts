import { expect, test } from 'vitest'
import { markerFrom, searchedMemory } from '../../src/kernels/markers.ts'
import { seeded } from '../random.ts'

/** As ITU-T T.81, B.1.1.2 and F.1.2.3 have it, byte by byte: 0xff, and a byte that is neither a stuffed zero nor a fill byte. */
function byDefinition(bytes: Uint8Array, from: number): number {
  for (let at = from; at + 1 < bytes.length; at++)
    if (bytes[at] === 0xff && bytes[at + 1] !== 0x00 && bytes[at + 1] !== 0xff) return at
  return -1
}

/** Bytes of which many look like the start of a marker, and few are. */
function coded(length: number, next: () => number): Buffer {
  const bytes = Buffer.from(Array.from({ length }, () => Math.floor(256 * next())))
  for (let at = 0; at < length; at++) {
    if (next() < 0.2) bytes[at] = 0xff
    if (bytes[at] === 0xff && next() < 0.98) bytes[at + 1 < length ? at + 1 : at] = next() < 0.8 ? 0x00 : 0xff
  }
  return bytes
}

function inSearchedMemory(bytes: Buffer): Buffer {
  const memory = searchedMemory(bytes.length + 40)
  // What stands behind the file is no part of it.
  memory.fill(0xff, bytes.length).fill(0xd9, bytes.length + 1)
  return memory.subarray(0, bytes.copy(memory))
}

test.each([0, 1, 2, 3, 15, 16, 17, 31, 32, 33, 200, 5000])('each marker of %i bytes is found', (length) => {
  const next = seeded(length + 1)
  for (let round = 0; round < 50; round++) {
    const bytes = coded(length, next)
    const searched = inSearchedMemory(bytes)
    for (let from = 0; from <= length; from += Math.max(1, Math.floor(length / 40))) {
      const expected = byDefinition(bytes, from)
      expect([markerFrom(bytes, from), markerFrom(searched, from)], `from ${from}`).toEqual([
        expected,
        expected,
      ])
    }
  }
})

test('a marker counts wherever it stands among sixteen bytes, its second byte behind them too', () => {
  for (let at = 0; at < 70; at++) {
    const bytes = Buffer.alloc(72)
    bytes[at] = 0xff
    bytes[at + 1] = 0xd9
    expect(markerFrom(inSearchedMemory(bytes), 0)).toBe(at)
  }
})

test('memory for a larger file takes the place of that before', () => {
  const small = inSearchedMemory(Buffer.from([0xff, 0xd8]))
  const large = inSearchedMemory(Buffer.concat([Buffer.alloc(3_000_000), Buffer.from([0xff, 0xd9])]))
  expect(markerFrom(large, 0)).toBe(3_000_000)
  expect(small).toHaveLength(0)
})

test('where kernels can have no more memory, any other serves', () => {
  // More than WebAssembly can address, and nothing is written to it.
  const most = searchedMemory(2 ** 32 - 1)
  expect(most).toHaveLength(2 ** 32 - 1)
  most[3] = 0xff
  most[4] = 0xd8
  expect(markerFrom(most.subarray(0, 8), 2)).toBe(3)
  expect(markerFrom(inSearchedMemory(Buffer.from([0, 0xff, 0xd9])), 0)).toBe(1)
})
