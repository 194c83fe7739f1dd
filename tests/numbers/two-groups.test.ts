import { expect, test } from 'vitest'
import { median } from '../../src/numbers/quantile.ts'
import { twoGroups } from '../../src/numbers/two-groups.ts'
import { gaussian, seeded } from '../random.ts'

test('two groups, how far apart in standard deviations of the wider one', () => {
  // 1, 1, 2, 3, 3 has a variance of 4 / 5 about 2.
  const found = twoGroups([12, 1, 3, 2, 12, 12, 3, 1], 3)
  expect(found?.border).toBe(12)
  expect(found?.separation).toBeCloseTo(10 / Math.sqrt(4 / 5), 9)
})

test('a stray value hides no groups', () => {
  const found = twoGroups([12, 1, 3, 2, 12, 12, 3, 1, -90], 3)
  expect(found?.border).toBe(12)
  expect(found?.separation).toBeCloseTo(10 / Math.sqrt(4 / 5), 9)
})

test.each([
  ['too few values', [1, 2, 9], 2],
  ['equal values', [4, 4, 4, 4, 4, 4], 2],
  ['none', [], 1],
])('%s are no two groups', (_, values, fewest) => {
  expect(twoGroups(values, fewest)).toBeNull()
})

test.each([
  ['three strays and the two next to them', [1, 1.1, 1.2, 8, 8.1, 9, 9.1, 9.2, 9.3, 9.4, 9.5], false],
  ['two groups', [1, 1.1, 1.2, 2, 2.1, 9, 9.1, 9.2, 9.3, 9.4, 9.5], true],
])('%s: apart or not', (_, values, isApart) => {
  expect(twoGroups(values, 5)?.isApart).toBe(isApart)
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
    const border = twoGroups(values, 3)?.border
    const at = sorted.indexOf(border as number)
    expect(costs[at]).toBeCloseTo(Math.min(...costs), 9)
  }
})
