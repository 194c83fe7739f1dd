import { expect, test } from 'vitest'
import { median } from '../../src/numbers/quantile.ts'
import { twoGroups } from '../../src/numbers/two-groups.ts'
import { gaussian, seeded } from '../random.ts'

test('two groups, how far apart in spreads of the wider one', () => {
  // Medians 2 and 12; the median deviations are 1 and 0.
  const found = twoGroups([12, 1, 3, 2, 12, 12, 3, 1], 3, 0)
  expect(found).toMatchObject({ border: 12, low: { median: 2 }, high: { median: 12, spread: 0 } })
  expect(found?.separation).toBeCloseTo(10 / 1.4826, 9)
  expect(twoGroups([12, 1, 3, 2, 12, 12, 3, 1], 3, 5)?.separation).toBeCloseTo(2, 9)
})

test.each([
  ['too few values', [1, 2, 9], 2],
  ['equal values', [4, 4, 4, 4, 4, 4], 2],
  ['none', [], 1],
])('%s are no two groups', (_, values, fewest) => {
  expect(twoGroups(values, fewest, 0.1)).toBeNull()
})

test('the split is the best of all, by the definition', () => {
  const [random, normal] = [seeded(1), gaussian(2)]
  const cost = (values: readonly number[]) => {
    const middle = median(values)
    return values.reduce((sum, value) => sum + Math.abs(value - middle), 0)
  }
  for (let round = 0; round < 300; round++) {
    const n = 6 + Math.floor(30 * random())
    const values = Array.from({ length: n }, () => (random() < 0.4 ? 5 * random() : 0) + normal())
    const sorted = [...values].sort((a, b) => a - b)
    const costs = sorted.map((_, k) =>
      k < 3 || k > n - 3 ? Infinity : cost(sorted.slice(0, k)) + cost(sorted.slice(k)),
    )
    const border = twoGroups(values, 3, 0)?.border
    const at = sorted.indexOf(border as number)
    expect(costs[at]).toBeCloseTo(Math.min(...costs), 9)
  }
})
