import { expect, test } from 'vitest'
import { powerOfTwo, transform } from '../../src/numbers/fourier.ts'
import { gaussian } from '../random.ts'

test.each([1, 2, 8, 64])(
  '%i values become what the defining sum of the discrete Fourier transform says',
  (count) => {
    const random = gaussian(count)
    const [real, imaginary] = [
      Float64Array.from({ length: count }, random),
      Float64Array.from({ length: count }, random),
    ]
    const [re, im] = [real.slice(), imaginary.slice()]
    transform(re, im)
    for (let k = 0; k < count; k++) {
      let [x, y] = [0, 0]
      for (let n = 0; n < count; n++) {
        const angle = (-2 * Math.PI * k * n) / count
        const [a, b] = [real[n] as number, imaginary[n] as number]
        x += a * Math.cos(angle) - b * Math.sin(angle)
        y += a * Math.sin(angle) + b * Math.cos(angle)
      }
      expect(re[k]).toBeCloseTo(x, 9)
      expect(im[k]).toBeCloseTo(y, 9)
    }
  },
)

test.each([
  [0, 1],
  [1, 1],
  [2, 2],
  [3, 4],
  [256, 256],
  [257, 512],
])('%i values need room for %i', (count, room) => {
  expect(powerOfTwo(count)).toBe(room)
})
