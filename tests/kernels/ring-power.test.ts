import { expect, test } from 'vitest'
import { ringPowers } from '../../src/kernels/ring-power.ts'
import { seeded } from '../random.ts'

// Against the defining sum of the discrete Fourier transform, of the values without their weighted mean.
test.each([
  [8, 8, 8, 8],
  [5, 3, 8, 4],
  [13, 21, 16, 32],
  [32, 10, 32, 16],
])('a picture of %i x %i values, filled up to %i x %i', (width, height, columns, rows) => {
  const random = seeded(width)
  const data = Float32Array.from({ length: width * height }, () => 255 * random() - 128)
  const across = Float32Array.from({ length: width }, random)
  const down = Float32Array.from({ length: height }, random)
  const total = (values: Iterable<number>) => [...values].reduce((sum, value) => sum + value, 0)
  const weightOf = (i: number) => (across[i % width] as number) * (down[Math.floor(i / width)] as number)
  const mean = total(data.map((value, i) => weightOf(i) * value)) / (total(across) * total(down))
  const tall = rows / 2 + 1
  const ringAt = Uint8Array.from({ length: (columns / 2 + 1) * tall }, (_, i) => (7 * i) % 5)
  const rings = 4
  const expected = new Float64Array(rings)
  for (let u = 0; u < columns; u++) {
    for (let v = 0; v < rows; v++) {
      let [re, im] = [0, 0]
      for (const [i, value] of data.entries()) {
        const [x, y] = [i % width, Math.floor(i / width)]
        const weighed = (value - mean) * weightOf(i)
        const angle = -2 * Math.PI * ((u * x) / columns + (v * y) / rows)
        re += weighed * Math.cos(angle)
        im += weighed * Math.sin(angle)
      }
      // The ring of (u, v) is that of its absolute frequencies.
      const [column, row] = [Math.min(u, columns - u), Math.min(v, rows - v)]
      const ring = ringAt[column * tall + row] as number
      if (ring < rings) expected[ring] = (expected[ring] as number) + re * re + im * im
    }
  }
  const found = ringPowers({ data, width, height }, { across, down, columns, rows }, ringAt, rings)
  for (const [ring, power] of expected.entries())
    expect(Math.abs((found[ring] as number) / power - 1)).toBeLessThan(1e-5)
})
