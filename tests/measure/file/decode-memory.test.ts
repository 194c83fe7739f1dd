import { expect, test } from 'vitest'
import { readContainer } from '../../../src/measure/file/container/container.ts'
import { decodeMemory } from '../../../src/measure/file/decode-memory.ts'
import { readHeader } from '../../../src/measure/file/header.ts'
import type { Decodable } from '../../../src/measure/schema/formats.ts'
import { noise } from '../samples.ts'

const picture = () => noise(40, 50)
const clear = () => picture().ensureAlpha(0.5)

// What libvips 8.18.7 took at 36 million pixels beyond its start, in bytes a pixel, rounded: by Linux's VmHWM of a process
// that does nothing else.
test.each([
  ['a plain JPEG', 'jpeg', () => picture().jpeg(), 3],
  ['a plain JPEG shown turned', 'jpeg', () => picture().jpeg().withMetadata({ orientation: 6 }), 6],
  ['a progressive JPEG', 'jpeg', () => picture().jpeg({ progressive: true, chromaSubsampling: '4:4:4' }), 9],
  [
    'a progressive JPEG in CMYK',
    'jpeg',
    () => picture().toColourspace('cmyk').jpeg({ progressive: true }),
    11,
  ],
  ['a PNG', 'png', () => picture().png(), 3],
  ['an interlaced PNG', 'png', () => picture().png({ progressive: true }), 6],
  [
    'a PNG of 16 bits, transparent',
    'png',
    () => clear().toColourspace('rgb16').png({ progressive: true }),
    12,
  ],
  [
    'a TIFF of 16 bits, transparent, shown turned',
    'tiff',
    () => clear().toColourspace('rgb16').tiff({ compression: 'lzw' }).withMetadata({ orientation: 6 }),
    13,
  ],
  ['a WebP', 'webp', () => clear().webp({ lossless: true }), 9],
  ['an AVIF', 'avif', () => picture().avif({ effort: 0 }), 18],
  [
    'an AVIF of 10 bits',
    'avif',
    () => clear().avif({ effort: 0, bitdepth: 10, chromaSubsampling: '4:4:4' }),
    25,
  ],
] as const)('%s', async (_, format: Decodable, saved, measured) => {
  const content = await saved().toBuffer()
  const container = readContainer(format, content)
  const perPixel = decodeMemory(format, await readHeader(content, container), container) / (40 * 50)
  expect(perPixel).toBeGreaterThanOrEqual(measured)
  expect(perPixel).toBeLessThanOrEqual(2 * measured)
})
