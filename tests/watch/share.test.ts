import decodeQR from 'qr/decode.js'
import { expect, it } from 'vitest'
import { codeToScan, networkAddress } from '../../src/watch/share.ts'

const at = (address: string, internal = false) => ({
  ...{ address, internal, netmask: '', mac: '', cidr: null },
  family: 'IPv4' as const,
})

it('shares at an address of the local network, and at none where there is no network', () => {
  expect(networkAddress({ lo: [at('127.0.0.1', true)] })).toBeNull()
  expect(
    networkAddress({ lo: [at('127.0.0.1', true)], a: [at('203.0.113.9')], b: [at('192.168.4.7')] }),
  ).toBe('192.168.4.7')
  expect(networkAddress({ a: [at('203.0.113.9')], b: undefined })).toBe('203.0.113.9')
})

it('draws a code that reads as the address', () => {
  const url = 'http://192.168.4.7:46789/lLGOSH0ft-AL9f-yCvnISA/'
  // As a camera sees it: eight pixels a module, dark on light.
  const size = 8
  const rows = codeToScan(url)
    .split('\n')
    .flatMap((line) => [line, line].map((half, lower) => [...half].map((block) => isLight(block, lower))))
  const [width, height] = [(rows[0]?.length ?? 0) * size, rows.length * size]
  const data = new Uint8ClampedArray(width * height * 4).fill(255)
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const value = rows[Math.floor(y / size)]?.[Math.floor(x / size)] ? 255 : 0
      data.fill(value, 4 * (y * width + x), 4 * (y * width + x) + 3)
    }
  expect(decodeQR({ width, height, data })).toBe(url)
})

/** Whether a half of a character is filled, which is light on a dark terminal. @param lower 0 for the upper half, 1 for the lower */
function isLight(block: string, lower: number): boolean {
  if (block === '\u2588') return true
  return block === (lower === 1 ? '\u2584' : '\u2580')
}
