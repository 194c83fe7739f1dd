import { expect, test } from 'vitest'
import { powersAt } from '../../src/numbers/powers-at.ts'
import { seeded } from '../random.ts'

test('is the discrete Fourier transform, summed term by term', () => {
  const random = seeded(3)
  const values = Float64Array.from({ length: 61 }, () => 10 + random())
  const frequencies = [0.02, 0.13, 0.25, 0.4999]
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  const direct = frequencies.map((frequency) => {
    let [re, im] = [0, 0]
    values.forEach((value, n) => {
      const windowed = (value - mean) * Math.sin((Math.PI * (n + 0.5)) / values.length) ** 2
      re += windowed * Math.cos(2 * Math.PI * frequency * n)
      im -= windowed * Math.sin(2 * Math.PI * frequency * n)
    })
    return re * re + im * im
  })
  powersAt(values, frequencies).forEach((power, i) => {
    expect(power).toBeCloseTo(direct[i] as number, 8)
  })
})
