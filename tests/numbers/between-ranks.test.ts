import { expect, test } from 'vitest'
import { betweenRanks } from '../../src/numbers/between-ranks.ts'
import { seeded } from '../random.ts'

// Against the definition: sorted (Array.prototype.sort keeps the order of equal values) and cut out.
test.each([
  ['all different', 1e6],
  ['many alike', 5],
  ['all alike', 1],
])('what lies between two ranks of values, %s', (_, kinds) => {
  const next = seeded(5)
  const values = Float32Array.from({ length: 300 }, () => Math.floor(kinds * next()) - kinds / 2)
  const sorted = [...values.keys()].sort((i, j) => (values[i] as number) - (values[j] as number))
  for (const [from, to] of [
    [0, 299],
    [75, 224],
    [130, 130],
    [298, 299],
  ] as const) {
    const part = sorted.slice(from, to + 1)
    const { low, high, indexes } = betweenRanks(values, from, to)
    expect([low, high]).toEqual([values[part[0] as number], values[part.at(-1) as number]])
    expect([...indexes]).toEqual(part.sort((i, j) => i - j))
  }
})
