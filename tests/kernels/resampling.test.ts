import { expect, test } from 'vitest'
import { encodedLight, resampledLight, type Taps } from '../../src/kernels/resampling.ts'
import { seeded } from '../random.ts'

/** The weighted sum for a place of the result, and no less than the least of the nearest. */
function summed(
  { starts, weights, count, nears, near }: Taps,
  place: number,
  valueAt: (at: number) => number,
): number {
  let sum = 0
  for (let k = 0; k < count; k++) sum += (weights[place * count + k] ?? 0) * valueAt((starts[place] ?? 0) + k)
  const values = Array.from({ length: near }, (_, k) => valueAt((nears[place] ?? 0) + k))
  return Math.max(sum, Math.min(...values))
}

// Against the definitions in double precision; single precision keeps seven digits.
test.each([
  ['8', new Uint8Array(429), 255],
  ['16', new Uint16Array(429), 65535],
] as const)('codes of %s bits to light, each pixel a weighted sum of neighbors', (_, codes, top) => {
  const next = seeded(top)
  const [width, leftPx, topPx] = [13, 2, 3]
  for (const index of codes.keys()) codes[index] = Math.round(top * next())
  const light = [1, 2, 3].map((power) => Float32Array.from({ length: top + 1 }, (_, c) => (c / top) ** power))
  const across = {
    starts: Int32Array.of(0, 3, 5),
    weights: Float32Array.from({ length: 9 }, () => 2 * next() - 0.5),
    count: 3,
    nears: Int32Array.of(1, 3, 6),
    near: 2,
    from: 8,
  }
  const down = {
    starts: Int32Array.of(0, 1, 1, 4),
    weights: Float32Array.from({ length: 16 }, () => 2 * next() - 0.5),
    count: 4,
    nears: Int32Array.of(1, 2, 1, 6),
    near: 2,
    from: 8,
  }
  const [red, green, blue] = light
  if (!red || !green || !blue) throw new Error('Three tables are made.')
  const part = { codes, widthPx: width, leftPx, topPx, light: [red, green, blue] as const }
  const found = resampledLight(part, across, down)
  const lightAt = (x: number, y: number, channel: number) =>
    light[channel]?.[codes[3 * ((topPx + y) * width + leftPx + x) + channel] ?? 0] ?? 0
  const middle = (x: number, y: number, channel: number) => summed(down, y, (at) => lightAt(x, at, channel))
  const expected = [...down.starts.keys()].flatMap((y) =>
    [...across.starts.keys()].flatMap((x) =>
      [0, 1, 2].map((channel) => summed(across, x, (at) => middle(at, y, channel))),
    ),
  )
  expect(found).toHaveLength(expected.length)
  for (const [index, value] of expected.entries()) expect(found[index]).toBeCloseTo(value, 5)
})

test('light to codes: the matrix, the table, the noise, and what is out of gamut', () => {
  const light = Float32Array.of(0.25, 0.25, 0.25, 1, 0, 0, 0, 0, 1, 0.25, 0.25, 0.25)
  const coding = {
    // Red and green change places, and blue is worth twice.
    columns: Float32Array.of(0, 1, 0, 0, 1, 0, 0, 0, 0, 0, 2, 0),
    table: Float32Array.from({ length: 101 }, (_, step) => step),
    noise: Float32Array.from({ length: 64 }, (_, index) => (index >= 8 ? 0.999 : 0)),
    ...{ channels: 3 as const, within: 0.004 },
  }
  const codes = new Uint8Array(12)
  expect(encodedLight(light, 2, coding, codes)).toBe(1)
  // 100 times the root of light, rounded down; in the second row up.
  expect([...codes]).toEqual([50, 50, 70, 0, 100, 0, 0, 0, 100, 50, 50, 71])
})
