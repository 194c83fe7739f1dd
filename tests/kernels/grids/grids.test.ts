import { describe, expect, test } from 'vitest'
import { type ByteGrid, type Grids, type HeldGrid, withGrids } from '../../../src/kernels/grids/grids.ts'
import { jointSumsOfBytes } from '../../../src/kernels/grids/joint-sums.ts'
import { correlationsWith, innerProductsWith } from '../../../src/kernels/grids/one-to-many.ts'
import { seeded } from '../../random.ts'
import * as defined from './plain-grids.ts'

/** Slow light and dark with noise, and some cells that are none; rows of all lengths within a vector. */
function grid(seed: number, columns: number, rows: number, holes = 3): ByteGrid {
  const random = seeded(seed)
  const [x, y, phase] = [3 * random(), 3 * random(), random()]
  const luma = Uint8Array.from({ length: columns * rows }, (_, i) => {
    const wave = Math.sin(
      2 * Math.PI * ((x * (i % columns)) / columns + (y * Math.floor(i / columns)) / rows + phase),
    )
    return 1 + Math.round(127 + 80 * wave + 40 * (random() - 0.5))
  })
  for (let k = 0; k < holes; k++) luma[Math.floor(random() * luma.length)] = 0
  return { columns, rows, luma }
}

const SHAPES = [
  [22, 24],
  [44, 52],
  [26, 32],
  [13, 9],
  [15, 11],
] as const
const IDENTITY = { a: 1, b: 0, dx: 0, dy: 0 }
const LIMITS = { rounds: 4, shift: 5, stretch: 0.5, still: 0, singular: 1e-9 }
const MOVE = { a: 1.02, b: -0.04, dx: 0.7, dy: -1.3 }

/** Whether the cells are those of the definition, none where they are none there, and else within what single precision gives. */
function expectCells(found: Float32Array, { luma }: defined.PlainGrid): void {
  expect([...found.keys()].filter((i) => (found[i] === 0) !== (luma[i] === 0))).toEqual([])
  expect(Math.max(...found.map((value, i) => Math.abs(value - (luma[i] as number))))).toBeLessThan(2e-3)
}

function withBoth<T>(
  [columns, rows]: readonly [number, number],
  work: (
    grids: Grids,
    held: readonly [HeldGrid, HeldGrid],
    as: readonly [defined.PlainGrid, defined.PlainGrid],
  ) => T,
): T {
  const [a, b] = [grid(1, columns, rows), grid(2, columns, rows)]
  return withGrids((grids) =>
    work(grids, [grids.hold(a), grids.hold(b)], [defined.plain(a), defined.plain(b)]),
  )
}

describe.each(SHAPES)('grids of %i x %i cells', (...shape) => {
  test('are held as they are, and moved', () => {
    withBoth(shape, (grids, [a, b], [p, q]) => {
      expect([...grids.cells(a)]).toEqual([...p.luma])
      expectCells(grids.cells(grids.moved(b, MOVE, a)), defined.moved(q, MOVE, p))
      const far = { ...MOVE, dx: 5, dy: 100 }
      expect(Math.max(...grids.cells(grids.moved(b, far, a)))).toBe(0)
      const onto = grid(3, 17, 12)
      const small = defined.moved(q, MOVE, defined.plain(onto))
      expectCells(grids.cells(grids.moved(b, MOVE, grids.hold(onto))), small)
    })
  })

  test('are summed over the cells that both have: exactly, since lumas are whole', () => {
    const [a, b] = [grid(1, ...shape), grid(2, ...shape)]
    const sums = defined.jointSums(defined.plain(a), defined.plain(b))
    expect(withGrids((grids) => grids.jointSums(grids.hold(a), grids.hold(b)))).toEqual(sums)
    expect(jointSumsOfBytes(a.luma, b.luma)).toEqual(sums)
    const correlation = withGrids((grids) => grids.correlation(grids.hold(a), grids.hold(b)))
    expect(correlation).toBeCloseTo(defined.correlation(sums), 9)
    const even = { ...a, luma: a.luma.map(() => 90) }
    expect(withGrids((grids) => grids.correlation(grids.hold(a), grids.hold(even)))).toBe(0)
  })

  test('are aligned as by the definition, or given up', () => {
    // The second is the first moved a little, and darker.
    const [columns, rows] = shape
    const first = grid(1, columns, rows, 1)
    const there = defined.moved(
      defined.plain(first),
      { a: 1.01, b: 0.01, dx: 0.3, dy: -0.2 },
      defined.plain(first),
    )
    const second = { columns, rows, luma: Uint8Array.from(there.luma, (luma) => Math.ceil(0.8 * luma)) }
    withGrids((grids) => {
      const [a, b] = [grids.hold(first), grids.hold(second)]
      const [p, q] = [defined.plain(first), defined.plain(second)]
      for (const rounds of [1, 2, 5]) {
        const found = grids.align(a, b, IDENTITY, { ...LIMITS, rounds })
        const expected = defined.aligned(p, q, rounds)
        for (const key of ['a', 'b', 'dx', 'dy'] as const) expect(found?.[key]).toBeCloseTo(expected[key], 3)
      }
      const reached = grids.correlation(a, grids.moved(b, defined.aligned(p, q, 1), a))
      const givenUp = (least: number) =>
        grids.align(a, b, IDENTITY, { ...LIMITS, trial: { round: 1, least } })
      expect(givenUp(reached - 1e-3)).not.toBeNull()
      expect(givenUp(reached + 1e-3)).toBeNull()
      const { a: stretch, b: turn, dx: right, dy: down } = defined.aligned(p, q, 1)
      const step = Math.hypot(right, down) + (rows / 2) * Math.hypot(stretch - 1, turn)
      const near = defined.likenessInside(p, defined.moved(q, IDENTITY, p))
      const settled = (step: number, least: number) =>
        grids.align(a, b, IDENTITY, { ...LIMITS, rounds: 1, settled: { step, least } })
      expect(settled(step + 1e-3, near + 1e-3)).toBeNull()
      expect(settled(step - 1e-3, near + 1e-3)).not.toBeNull()
      expect(settled(step + 1e-3, near - 1e-3)).not.toBeNull()
      const { dx, dy } = defined.aligned(p, q, 1)
      const shift = Math.hypot(dx, dy)
      expect(grids.align(a, b, IDENTITY, { ...LIMITS, rounds: 1, shift: shift + 1e-3 })).not.toBeNull()
      expect(grids.align(a, b, IDENTITY, { ...LIMITS, rounds: 1, shift: shift - 1e-3 })).toBeNull()
      const even = grids.hold({ columns, rows, luma: new Uint8Array(columns * rows).fill(90) })
      expect(grids.align(a, even, IDENTITY, LIMITS)).toBeNull()
    })
  })

  test('are blurred, stripped of slow changes, and measured for their steps', () => {
    withBoth(shape, (grids, [a, b], [p, q]) => {
      const weights = [0.1, 0.4, 1, 0.4, 0.1]
      expectCells(grids.cells(grids.blurred(a, Float32Array.from(weights), 2)), defined.blurred(p, weights))
      expectCells(grids.cells(grids.details(a, 1, 3, 1000)), defined.details(p, 1, 3, 1000))
      expect(grids.squaredSteps(a, b) / defined.squaredSteps(p, q)).toBeCloseTo(1, 6)
    })
  })

  test('are alike place by place, ranked from the least', () => {
    withBoth(shape, (grids, [a, b], [p, q]) => {
      const weights = Float64Array.of(0.05, 0.25, 0.4, 0.25, 0.05)
      const places = defined.places(p, q, [0.4, 0.6], weights, 58)
      for (const share of [0, 0.01, 0.3, 0.99]) {
        const found = grids.placeLikeness([a, b], [0.4, 0.6], { weights, reach: 2 }, 58, share)
        expect(found).toBeCloseTo(places[Math.floor(places.length * share)] as number, 9)
      }
      const wide = Float64Array.from({ length: 61 }, () => 1 / 61)
      expect(grids.placeLikeness([a, b], [1, 1], { weights: wide, reach: 30 }, 58, 0)).toBeNull()
    })
  })
})

test('one list against many, from any on: correlations of cells that both have, and inner products', () => {
  const lists = Array.from({ length: 7 }, (_, k) =>
    Int16Array.from(grid(k + 1, 11, 12).luma, (luma) => 4 * luma),
  )
  const one = lists[2] as Int16Array
  const found = correlationsWith(lists)(one, 2)
  for (const [k, list] of lists.entries()) {
    if (k < 2) continue
    const sums = defined.jointSums({ luma: Float64Array.from(one) }, { luma: Float64Array.from(list) })
    expect(found[k]).toBeCloseTo(defined.correlation(sums), 6)
  }
  const even = new Int16Array(132).fill(7)
  expect([...correlationsWith([even, new Int16Array(132)])(one, 0)]).toEqual([0, 0])
  const numbers = [Float32Array.of(1, 2, 3), Float32Array.of(4, 5, 6, 7, 8), Float32Array.of()]
  expect([...innerProductsWith(numbers)(Float32Array.of(1, 1, 2), 0)]).toEqual([9, 21, 0])
})
