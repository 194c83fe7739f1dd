import { expect, test } from 'vitest'
import { maskedMeansAt } from '../../src/kernels/masks.ts'
import { seeded } from '../random.ts'

test('what lies outside the mask has no say, and nothing near is no number', () => {
  const values = Float32Array.from([10, 20, 1000, 40])
  const all = Int32Array.of(0, 1, 2, 3)
  const out = maskedMeansAt(all, values, Uint8Array.from([1, 1, 0, 1]), 4, 1, 1)
  expect([...out]).toEqual([15, 15, 30, 40])
  expect(maskedMeansAt(all, values, new Uint8Array(4), 4, 1, 1)[0]).toBeNaN()
})

// Against the plain sum over each square.
test.each([
  [1, 1, 3],
  [5, 2, 4],
  [17, 23, 1],
  [31, 12, 6],
  [40, 40, 50],
])('%i x %i pixels, squares of %i around each', (width, height, radius) => {
  const random = seeded(7)
  const values = Float32Array.from({ length: width * height }, () => 100 * random())
  // Parts of it without a hole, as most of a backdrop is.
  const mask = Uint8Array.from(values, (_, i) => Number(random() < 0.6 || i > values.length / 2))
  const pixels = Int32Array.from(values.keys()).filter(() => random() < 0.5)
  const expected = (x: number, y: number, covers: (i: number) => boolean) => {
    let [sum, count] = [0, 0]
    for (let row = Math.max(0, y - radius); row <= Math.min(height - 1, y + radius); row++) {
      for (let column = Math.max(0, x - radius); column <= Math.min(width - 1, x + radius); column++) {
        const i = row * width + column
        if (!covers(i)) continue
        sum += values[i] as number
        count++
      }
    }
    return sum / count
  }
  for (const [k, mean] of maskedMeansAt(pixels, values, mask, width, height, radius).entries()) {
    const i = pixels[k] as number
    const truth = expected(i % width, Math.floor(i / width), (j) => mask[j] === 1)
    // Where nothing is covered there is no mean.
    expect(Number.isNaN(truth) ? Number.isNaN(mean) : Math.abs(mean - truth) < 5e-5).toBe(true)
  }
})
