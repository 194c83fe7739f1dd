import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { SRGB, toXyzD50 } from '../../../src/color/colorants.ts'
import { srgbFromLinear, srgbToLinear } from '../../../src/color/transfer.ts'
import { resampled } from '../../../src/prepare/pixels/resample.ts'
import { targetSpace } from '../../../src/prepare/pixels/target-space.ts'
import { gaussian } from '../../random.ts'

const SIZE = 512
const SMALL = SIZE / 4

/** A picture by its light, 0..1, made a quarter as large; its light again. */
function quartered(light: (x: number, y: number) => number) {
  const codes = new Uint16Array(3 * SIZE * SIZE)
  for (let y = 0, i = 0; y < SIZE; y++)
    for (let x = 0; x < SIZE; x++) {
      const code = Math.round(65535 * srgbFromLinear(light(x + 0.5, y + 0.5)))
      for (let channel = 0; channel < 3; channel++) codes[i++] = code
    }
  const master = {
    ...{
      pixels: Buffer.from(codes.buffer),
      widthPx: SIZE,
      heightPx: SIZE,
      bits: 16 as const,
      isTabled: false,
    },
    color: { toXyz: toXyzD50(SRGB), curves: [srgbToLinear, srgbToLinear, srgbToLinear] as const },
  }
  const crop = { leftPx: 0, topPx: 0, widthPx: SIZE, heightPx: SIZE }
  const { codes: out } = resampled(master, crop, { widthPx: SMALL, heightPx: SMALL }, targetSpace('sRGB'), 16)
  return (x: number, y: number) => srgbToLinear((out[3 * (y * SMALL + x)] ?? 0) / 65535)
}

/** Rate at which the phase grows, so that the pattern is as fine as the pixels at the picture's edges: half a cycle a px. */
const RATE = Math.PI / SIZE

/** Light of a zone plate at a distance from its center, px, and how fine it is there, cycles a px. */
const plate = (r: number) => 0.5 + 0.4 * Math.cos(RATE * r * r)
const fineness = (r: number) => (RATE * r) / Math.PI

describe('a zone plate made a quarter as large', () => {
  const center = SIZE / 2
  const at = quartered((x, y) => plate(Math.hypot(x - center, y - center)))
  const errors = { coarse: [] as number[], fine: [] as number[] }
  for (let y = 0; y < SMALL; y++)
    for (let x = 0; x < SMALL; x++) {
      const r = Math.hypot(4 * (x + 0.5) - center, 4 * (y + 0.5) - center)
      // The small grid holds 0.125 cycles of a large px.
      if (fineness(r) < 0.08) errors.coarse.push(at(x, y) - plate(r))
      if (fineness(r) > 0.17 && fineness(r) < 0.48) errors.fine.push(at(x, y) - 0.5)
    }
  const rms = (values: readonly number[]) => Math.hypot(...values) / Math.sqrt(values.length)
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

  test('what the small grid can hold is kept', () => expect(rms(errors.coarse)).toBeLessThan(0.02))

  test('what it can not hold becomes even, and as light as before', () => {
    expect(Math.abs(mean(errors.fine))).toBeLessThan(0.002)
    expect(rms(errors.fine)).toBeLessThan(0.03)
  })
})

// Dark hair before white paper: undershoot that is little light is many codes, since codes are close to perceived lightness.
test.each([0, 1, 2, 3])('an edge %i px off the grid hardly rings', (off) => {
  const at = quartered((x) => (x < SIZE / 2 + off ? 0.01 : 0.85))
  const row = Array.from({ length: SMALL }, (_, x) => 255 * srgbFromLinear(at(x, 64)))
  expect(Math.min(...row)).toBeGreaterThan(255 * srgbFromLinear(0.01) - 0.1)
  expect(Math.max(...row)).toBeLessThan(255 * srgbFromLinear(0.85) + 7)
  expect(row.filter((code) => code > 30 && code < 230).length).toBeLessThanOrEqual(2)
})

// The picture library's own resize in linear light, by the same kernel; it reads its grid of cells from another corner, and rounds.
test.each([
  [150, 130],
  [61, 53],
])('to %i x %i px as the picture library does it', async (widthPx, heightPx) => {
  const [width, height] = [200, 170]
  const next = gaussian(9)
  const noise = Uint8Array.from({ length: 3 * width * height }, (_, n) => 128 + 60 * (n % 3) * next())
  const raw = { width, height, channels: 3 as const }
  const pixels = await sharp(noise, { raw }).blur(4).normalize().raw().toBuffer()
  const theirs = await sharp(pixels, { raw })
    .pipelineColourspace('scrgb')
    .resize(widthPx, heightPx, { fit: 'fill', kernel: 'mks2021' })
    .toColourspace('srgb')
    .raw()
    .toBuffer()
  const color = {
    toXyz: toXyzD50(SRGB),
    curves: [srgbToLinear, srgbToLinear, srgbToLinear] as const,
  }
  const crop = { leftPx: 0, topPx: 0, widthPx: width, heightPx: height }
  const master = { pixels, widthPx: width, heightPx: height, bits: 8 as const, color, isTabled: false }
  const { codes } = resampled(master, crop, { widthPx, heightPx }, targetSpace('sRGB'), 16)
  const differences = [...codes].map((code, n) => code / 257 - (theirs[n] ?? 0))
  expect(differences).toHaveLength(theirs.length)
  expect(Math.hypot(...differences) / Math.sqrt(differences.length)).toBeLessThan(1)
})
