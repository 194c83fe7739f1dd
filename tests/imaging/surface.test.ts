import { describe, expect, test } from 'vitest'
import { fitSurface, surfaceAt } from '../../src/imaging/surface.ts'
import { gaussian } from '../random.ts'

function grid(size: number, z: (x: number, y: number) => number) {
  const xs = new Float32Array(size * size)
  const ys = new Float32Array(size * size)
  const zs = new Float32Array(size * size)
  for (let row = 0, i = 0; row < size; row++) {
    for (let column = 0; column < size; column++, i++) {
      xs[i] = (2 * (column + 0.5)) / size - 1
      ys[i] = (2 * (row + 0.5)) / size - 1
      zs[i] = z(xs[i] as number, ys[i] as number)
    }
  }
  return { xs, ys, zs }
}

describe('fitSurface', () => {
  const truth = (x: number, y: number) => 90 - 3 * x + 2 * y - 1.5 * x * x + 0.5 * x * y - y * y

  test('gives back a known quadratic surface', () => {
    const { xs, ys, zs } = grid(40, truth)
    const { surface, kept } = fitSurface(xs, ys, zs, 0.1)
    expect(surfaceAt(surface, 0.5, -0.5)).toBeCloseTo(truth(0.5, -0.5), 2)
    expect(kept).toBe(1)
  })

  test('is not bent by a quarter of outliers, such as hair among the samples', () => {
    const { xs, ys, zs } = grid(40, (x, y) => (x > 0.3 && y > 0.2 ? 20 : truth(x, y)))
    const { surface, kept } = fitSurface(xs, ys, zs, 0.1)
    expect(Math.abs(surfaceAt(surface, 0, 0) - truth(0, 0))).toBeLessThan(0.1)
    expect(kept).toBeCloseTo(1 - 0.35 * 0.4, 2)
  })

  // Gaussian noise of known sigma: 1.4826 x MAD estimates it (Huber & Ronchetti, Robust Statistics; from memory).
  test('estimates the noise around the surface', () => {
    const noise = gaussian(7)
    const { xs, ys, zs } = grid(60, (x, y) => truth(x, y) + 2 * noise())
    expect(fitSurface(xs, ys, zs, 0.1).sigma).toBeCloseTo(2, 1)
  })

  test('keeps to the floor when there is no noise at all', () => {
    const { xs, ys, zs } = grid(10, () => 96)
    expect(fitSurface(xs, ys, zs, 0.4)).toMatchObject({ sigma: 0.4, kept: 1 })
  })

  test('a strip along one edge does not make it singular', () => {
    const xs = Float32Array.from({ length: 50 }, (_, i) => i / 25 - 1)
    const { surface } = fitSurface(xs, new Float32Array(50).fill(-1), new Float32Array(50).fill(80), 0.4)
    expect(surfaceAt(surface, 0, -1)).toBeCloseTo(80, 1)
  })
})
