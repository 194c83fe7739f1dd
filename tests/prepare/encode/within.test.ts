import { describe, expect, test } from 'vitest'
import { highestWithin, largestShareWithin } from '../../../src/prepare/encode/within.ts'
import { seeded } from '../../random.ts'

const RANGE = { min: 40, max: 100 }

describe('the highest setting within a limit', () => {
  // Files that grow by 0 to 25 % a step, unevenly, as those of encoders do.
  test.each([1, 2, 3, 4, 5, 6])('is found wherever the search begins, in few steps: %d', async (seed) => {
    const random = seeded(seed)
    const sizes = [1000]
    while (sizes.length <= RANGE.max) sizes.push((sizes.at(-1) ?? 0) * (1 + 0.25 * random() ** 2))
    const mostBytes = sizes[55] ?? 0
    const right = sizes.findLastIndex((size) => size <= mostBytes)
    for (const start of [40, 60, 88, 100]) {
      let asked = 0
      const bytesAt = async (setting: number) => {
        asked++
        return sizes[setting] ?? 0
      }
      expect(await highestWithin({ bytesAt, mostBytes }, RANGE, start)).toBe(right)
      expect(asked).toBeLessThanOrEqual(12)
    }
  })

  test('is the last where all fit, and none where none does', async () => {
    const bytesAt = async (setting: number) => 100 * setting
    expect(await highestWithin({ bytesAt, mostBytes: 1e6 }, RANGE, 50)).toBe(100)
    expect(await highestWithin({ bytesAt, mostBytes: 3999 }, RANGE, 50)).toBe(null)
  })
})

describe('the largest share within a limit', () => {
  test.each([0.1, 0.2, 0.5, 0.9, 0.995])('fills it: %d of the way', async (way) => {
    const bytesAt = async (share: number) => 1000 + 120 * Math.sqrt(share)
    const mostBytes = 1000 + 120 * way
    const share = await largestShareWithin({ bytesAt, mostBytes }, [1000, 1120])
    const bytes = await bytesAt(share ?? 0)
    expect(bytes).toBeLessThanOrEqual(mostBytes)
    expect(bytes).toBeGreaterThan(0.98 * mostBytes)
  })

  test('is none where every part is too large', async () => {
    expect(await largestShareWithin({ bytesAt: async () => 1200, mostBytes: 1100 }, [1000, 1200])).toBe(null)
  })
})
