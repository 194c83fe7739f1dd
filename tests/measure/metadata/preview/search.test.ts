import { describe, expect, test } from 'vitest'
import { type Plane, shrink } from '../../../../src/measure/metadata/preview/plane.ts'
import { centered, correlate, findWithin } from '../../../../src/measure/metadata/preview/search.ts'
import { seeded } from '../../../random.ts'

/** Soft blobs, so that a picture made smaller still looks like itself. */
function blobs(width: number, height: number): Plane {
  const random = seeded(3)
  const centers = Array.from(
    { length: 12 },
    () => [random() * width, random() * height, 50 * random()] as const,
  )
  const data = Float32Array.from({ length: width * height }, (_, i) => {
    const x = i % width
    const y = Math.floor(i / width)
    return centers.reduce(
      (sum, [cx, cy, level]) => sum + level * Math.exp(-((x - cx) ** 2 + (y - cy) ** 2) / 200),
      0,
    )
  })
  return { data, width, height }
}

function cut({ data, width }: Plane, left: number, top: number, w: number, h: number): Plane {
  const rows = Array.from({ length: h }, (_, y) => [
    ...data.subarray((top + y) * width + left, (top + y) * width + left + w),
  ])
  return { data: Float32Array.from(rows.flat()), width: w, height: h }
}

describe('correlation', () => {
  const window = { data: Float32Array.from([9, 1, 2, 9, 3, 4]), width: 3, height: 2 }
  test.each([
    ['itself', [1, 2, 3, 4], 1],
    ['itself, brighter and with more contrast', [12, 14, 16, 18], 1],
    ['its opposite', [4, 3, 2, 1], -1],
    ['something flat', [5, 5, 5, 5], 0],
    // Pearson's r of (1, 2, 3, 4) and (2, 1, 4, 3) is 0.6.
    ['something alike', [2, 1, 4, 3], 0.6],
  ])('with %s', (_, values, score) => {
    expect(correlate(centered(Float32Array.from(values)), 2, window, 1)).toBeCloseTo(score, 5)
  })
})

describe('finding a part', () => {
  const outer = blobs(120, 160)
  test.each([
    [30, 40, 60, 80],
    [0, 0, 90, 90],
    [20, 10, 100, 120],
    [0, 0, 120, 160],
    [55, 70, 50, 70],
  ])('at %i, %i of %i x %i px', (left, top, width, height) => {
    const inner = cut(outer, left, top, width, height)
    for (const copy of [inner, shrink(inner, Math.round(width * 0.8), Math.round(height * 0.8))]) {
      const found = findWithin({ ...inner }, outer)
      expect(found.score).toBeGreaterThan(0.99)
      expect(found.x * 120).toBeCloseTo(left, -0.5)
      expect(found.y * 160).toBeCloseTo(top, -0.5)
      expect(Math.abs(found.width * 120 - width)).toBeLessThan(3)
      expect(copy.width).toBeGreaterThan(0)
    }
  })

  test('of a larger copy of the same scene', () => {
    const large = blobs(120, 160)
    const found = findWithin(large, shrink(large, 60, 80))
    expect(found).toMatchObject({ x: 0, y: 0, width: 1, height: 1 })
  })

  test('something else fits badly', () => {
    const noise = seeded(11)
    const other = { data: Float32Array.from({ length: 60 * 80 }, () => 100 * noise()), width: 60, height: 80 }
    expect(findWithin(other, outer).score).toBeLessThan(0.6)
  })

  test('of one row', () => {
    expect(findWithin({ data: new Float32Array(160), width: 160, height: 1 }, outer).score).toBe(-1)
  })
})
