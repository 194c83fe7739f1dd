import { differenceCiede2000 } from 'culori'
import { describe, expect, test } from 'vitest'
import { deltaE00 } from '../../src/color/ciede2000.ts'
import type { Lab } from '../../src/color/lab.ts'
import { seeded } from '../random.ts'
import pairs from './ciede2000-pairs.json' with { type: 'json' }

describe('the 34 published pairs (Sharma, Wu, Dalal 2005, Table 1)', () => {
  test('are all there', () => expect(pairs.rows).toHaveLength(34))

  test.each(pairs.rows.map((row, n) => [n + 1, row] as const))('pair %i, in both orders', (_, row) => {
    const [L1 = NaN, a1 = NaN, b1 = NaN, L2 = NaN, a2 = NaN, b2 = NaN, published = NaN] = row
    const first = { L: L1, a: a1, b: b1 }
    const second = { L: L2, a: a2, b: b2 }
    // The paper gives four decimals.
    expect(Math.abs(deltaE00(first, second) - published)).toBeLessThan(1e-4)
    expect(Math.abs(deltaE00(second, first) - published)).toBeLessThan(1e-4)
  })
})

test('agrees with culori 4.0.2, a second implementation, on 2000 random pairs', () => {
  const random = seeded(34)
  const between = (low: number, high: number) => low + (high - low) * random()
  const color = (): Lab => ({ L: between(0, 100), a: between(-100, 100), b: between(-100, 100) })
  const second = differenceCiede2000()
  const theirs = ({ L, a, b }: Lab) => ({ mode: 'lab65', l: L, a, b }) as const
  for (let n = 0; n < 2000; n++) {
    const [one, other] = [color(), color()]
    expect(deltaE00(one, other)).toBeCloseTo(second(theirs(one), theirs(other)), 9)
  }
})

test('equal colors differ by nothing, black and gray included', () => {
  for (const color of [
    { L: 0, a: 0, b: 0 },
    { L: 50, a: 0, b: 0 },
    { L: 96, a: -1, b: 2 },
  ]) {
    expect(deltaE00(color, color)).toBe(0)
  }
})
