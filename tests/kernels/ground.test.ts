import { describe, expect, test } from 'vitest'
import { Ground } from '../../src/kernels/ground.ts'
import { seeded } from '../random.ts'

describe.each([
  [1, 1],
  [5, 2],
  [37, 23],
  [64, 31],
])('%i x %i pixels', (width, height) => {
  const next = seeded(width)
  const random = () => Float32Array.from({ length: width * height }, () => 100 * next())
  const rows = Math.ceil(height / 2)

  test('distances from parabolas, in the rows that are asked for, and what is barred', () => {
    const planes = [random(), random(), random()] as const
    const us = Float32Array.from({ length: width }, (_, x) => x / width - 0.5)
    const parabola = (y: number, plane: number) => [40 + y + plane, 3 * plane, plane - 7]
    const terms = Array.from({ length: rows }, (_, y) => [0, 1, 2].map((plane) => parabola(y, plane)))
    const foreign = Uint8Array.from({ length: width * height }, () => Math.round(next()))
    const ground = new Ground(new Uint8Array(width * height), width, Int32Array.of(0))
    ground.readDistances(ground.put(planes, us), Float32Array.from(terms.flat(2)))
    ground.bar(foreign, rows)
    const found = ground.distance.subarray(0, rows * width)
    const off = Array.from(found, (distance, i) => {
      const u = us[i % width] as number
      const offs = [0, 1, 2].map((k) => {
        const [c0, c1, c2] = parabola(Math.floor(i / width), k) as [number, number, number]
        return (planes[k]?.[i] as number) - (c0 + c1 * u + c2 * u * u)
      })
      const expected = foreign[i] === 1 ? Infinity : Math.hypot(...offs)
      return distance === expected ? 0 : Math.abs(distance - expected)
    })
    expect(Math.max(...off)).toBeLessThan(1e-4)
  })
})
