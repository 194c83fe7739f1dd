import { expect, test } from 'vitest'
import { encodedLight, resampledLight } from '../../src/kernels/resampling.ts'
import { seeded } from '../random.ts'

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
    weights: Float32Array.from({ length: 9 }, () => next()),
    count: 3,
    from: 8,
  }
  const down = {
    starts: Int32Array.of(0, 1, 1, 4),
    weights: Float32Array.from({ length: 16 }, () => next()),
    count: 4,
    from: 8,
  }
  const [red, green, blue] = light
  if (!red || !green || !blue) throw new Error('Three tables are made.')
  const part = { codes, widthPx: width, leftPx, topPx, light: [red, green, blue] as const }
  const found = resampledLight(part, across, down)
  const expected = [...down.starts].flatMap((top0, y) =>
    [...across.starts].flatMap((left0, x) =>
      light.map((table, channel) => {
        let sum = 0
        for (let v = 0; v < down.count; v++)
          for (let u = 0; u < across.count; u++) {
            const at = 3 * ((topPx + top0 + v) * width + leftPx + left0 + u) + channel
            const weight = (down.weights[4 * y + v] ?? 0) * (across.weights[3 * x + u] ?? 0)
            sum += weight * (table[codes[at] ?? 0] ?? 0)
          }
        return sum
      }),
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
