import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { shrink } from '../../../../src/measure/metadata/preview/plane.ts'
import { seeded } from '../../../random.ts'

const plane = (width: number, height: number, values: readonly number[]) => ({
  data: Float32Array.from(values),
  width,
  height,
})

describe('shrinking', () => {
  test('whole pixels', () => {
    expect([...shrink(plane(4, 2, [1, 3, 5, 7, 1, 3, 5, 7]), 2, 1).data]).toEqual([2, 6])
  })
  test('parts of pixels: three to two', () => {
    const [left = 0, right = 0] = shrink(plane(3, 1, [0, 3, 6]), 2, 1).data
    expect(left).toBeCloseTo(1, 6)
    expect(right).toBeCloseTo(5, 6)
  })
  test('to the same size nothing changes', () => {
    expect([...shrink(plane(2, 2, [1, 2, 3, 4]), 2, 2).data]).toEqual([1, 2, 3, 4])
  })

  // A second implementation: libvips.
  test('as libvips shrinks by four', async () => {
    const random = seeded(7)
    const codes = Uint8Array.from({ length: 64 * 40 }, () => Math.floor(256 * random()))
    const raw = { width: 64, height: 40, channels: 1 } as const
    const other = await sharp(codes, { raw })
      .resize(16, 10, { kernel: 'linear', fit: 'fill' })
      .toColourspace('b-w')
      .raw()
      .toBuffer()
    const own = shrink(plane(64, 40, [...codes]), 16, 10).data
    // The linear kernel reaches beyond the block, so pixels differ; the picture as a whole must not.
    const correlation = pearson([...own], [...other])
    expect(correlation).toBeGreaterThan(0.9)
  })
})

function pearson(one: readonly number[], other: readonly number[]): number {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
  const [m, n] = [mean(one), mean(other)]
  const sum = (of: (a: number, b: number) => number) =>
    one.reduce((total, a, i) => total + of(a - m, (other[i] as number) - n), 0)
  return sum((a, b) => a * b) / Math.sqrt(sum((a) => a * a) * sum((_, b) => b * b))
}
