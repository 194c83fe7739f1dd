import { expect, test } from 'vitest'
import { blurredAt } from '../../src/imaging/gaussian.ts'
import type { Patch } from '../../src/imaging/patch.ts'

function blurred(patch: Patch, sigma: number): Float32Array {
  const [all] = blurredAt(patch, [sigma], Int32Array.from(patch.luma.keys()))
  return all as Float32Array
}

test.each([0.6, 1.2, 2.4])('a point becomes a Gaussian of %f px', (sigma) => {
  const size = 41
  const luma = new Float32Array(size * size)
  luma[20 * size + 20] = 1000
  const out = blurred({ luma, width: size, height: size }, sigma)
  let [sum, variance] = [0, 0]
  for (let i = 0; i < luma.length; i++) {
    const value = out[i] as number
    sum += value
    variance += value * ((i % size) - 20) ** 2
  }
  expect(sum).toBeCloseTo(1000, 1)
  // Cut off at three sigmas, a Gaussian has 0.973 of its variance; sampled at whole px it hardly differs from 0.6 px on.
  expect(variance / sum / sigma ** 2).toBeGreaterThan(0.95)
  expect(variance / sum / sigma ** 2).toBeLessThan(1.02)
})

test('beyond the border the outermost pixels go on', () => {
  const patch = { luma: new Float32Array(12 * 9).fill(77), width: 12, height: 9 }
  for (const value of blurred(patch, 3)) expect(value).toBeCloseTo(77, 4)
})
