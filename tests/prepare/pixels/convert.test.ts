import { expect, test } from 'vitest'
import { toXyzD50 } from '../../../src/color/colorants.ts'
import { RGB_SPACES } from '../../../src/color/rgb-spaces.ts'
import type { SourceColor } from '../../../src/prepare/pixels/decode.ts'
import { resampled } from '../../../src/prepare/pixels/resample.ts'
import { targetSpace } from '../../../src/prepare/pixels/target-space.ts'
import type { ColorSpace } from '../../../src/rules/contract/export-settings.ts'

function sourceOf(name: string): SourceColor {
  const space = RGB_SPACES.find((one) => one.name === name)
  if (!space) throw new Error(`Nobody knows ${name}.`)
  const { toLinear } = space
  return { toXyz: toXyzD50(space.primaries), curves: [toLinear, toLinear, toLinear] }
}

/** A picture of codes of 16 bits, through the whole way to another space. */
function through(
  codes: readonly number[],
  from: string,
  to: ColorSpace,
  bits: 8 | 16,
  widthPx = codes.length / 3,
) {
  const size = { widthPx, heightPx: codes.length / 3 / widthPx }
  const color = sourceOf(from)
  const master = {
    ...size,
    pixels: Buffer.from(Uint16Array.from(codes).buffer),
    bits: 16 as const,
    color,
    isTabled: false,
  }
  return resampled(master, { leftPx: 0, topPx: 0, ...size }, size, targetSpace(to), bits)
}

test('every code of 8 bits stays what it is in its own space, whatever its place in the dither', () => {
  for (const name of ['sRGB', 'Adobe RGB (1998)', 'Display P3', 'ProPhoto RGB'] as const) {
    const codes = Array.from({ length: 256 * 8 }, (_, n) => (n >> 3) * 257).flatMap((code) => [
      code,
      code,
      code,
    ])
    const { codes: out } = through(codes, name, name, 8, 8)
    expect([...out]).toEqual(codes.map((code) => code / 257))
  }
})

// The same colors in two spaces by LittleCMS (transicc -n -t 1, Debian liblcms2-utils 2.14, compatibleWithAdobeRGB1998.icc and sRGB.icc of icc-profiles-free).
test('Adobe RGB 200, 150, 120 is 217.25, 151.41, 119.27 in sRGB', () => {
  const { codes } = through(
    [200, 150, 120].map((code) => code * 257),
    'Adobe RGB (1998)',
    'sRGB',
    16,
  )
  const found = [...codes].map((code) => code / 257)
  for (const [index, value] of [217.2529, 151.4086, 119.2724].entries())
    expect(Math.abs((found[index] ?? 0) - value)).toBeLessThan(0.15)
})

test('what lies out of gamut is brought to its edge and counted', () => {
  const pure = [0, 65535, 0, 32768, 32768, 32768]
  const { codes, outOfGamut } = through(pure, 'ProPhoto RGB', 'sRGB', 8)
  expect([...codes.slice(0, 3)]).toEqual([0, 255, 0])
  expect(outOfGamut).toBe(0.5)
})

test('16 bits become 8 without steps: the mean of a field is the value between two codes', () => {
  const value = 128.4
  const field = Array.from({ length: 3 * 64 * 64 }, () => Math.round(value * 257))
  const { codes } = through(field, 'sRGB', 'sRGB', 8, 64)
  const mean = [...codes].reduce((sum, code) => sum + code, 0) / codes.length
  expect(mean).toBeCloseTo(value, 1)
  expect(new Set(codes)).toEqual(new Set([128, 129]))
})

test('gray has the luminance of the color and one channel', () => {
  // Code 200, 150, 120 of sRGB has L* 66.41 (transicc), and the gray of that L* is code 161.4 (IEC 61966-2-1, CIE 15).
  const { codes, channels } = through(
    [200, 150, 120].map((code) => code * 257),
    'sRGB',
    'gray',
    16,
  )
  expect(channels).toBe(1)
  expect((codes[0] ?? 0) / 257).toBeCloseTo(161.4, 0)
})
