import { describe, expect, test } from 'vitest'
import { axisOver, stacked } from '../../../src/report/html/plot-scale.ts'
import { seeded } from '../../random.ts'

describe('axis', () => {
  test('holds values and limits in order, with room at both ends', () => {
    const { at } = axisOver([{ value: 4, min: 6, max: 12 }, { value: 20 }], 10, 110)
    expect(at(4)).toBeGreaterThan(10)
    expect(at(20)).toBeLessThan(110)
    expect([4, 6, 12, 20].map(at)).toEqual([4, 6, 12, 20].map(at).toSorted((a, b) => a - b))
    expect(at(Number.NEGATIVE_INFINITY)).toBe(10)
    expect(at(Number.POSITIVE_INFINITY)).toBe(110)
  })

  test.each([
    [[{ value: 0 }]],
    [[{ value: 96 }, { value: 96 }]],
    [[{ value: -3, min: -3, max: 3 }]],
    [[{ value: 1e-9 }, { value: 1e9 }]],
    [[{ value: 0.001 }, { value: 0.002 }]],
  ])('%j gives finite places and a few round ticks', (figures) => {
    const { at, ticks } = axisOver(figures, 0, 100)
    for (const { value } of figures) expect(at(value)).toBeGreaterThanOrEqual(0)
    expect(ticks.length).toBeGreaterThanOrEqual(1)
    expect(ticks.length).toBeLessThanOrEqual(7)
    for (const tick of ticks) expect(String(Number(tick.toPrecision(3)))).toMatch(/^-?[\d.e+-]+$/)
    expect(new Set(ticks).size).toBe(ticks.length)
  })
})

describe('stacked points', () => {
  test('never cover each other while there is room', () => {
    const places = stacked([10, 10, 10, 40], 4, 100)
    expect(places.map(({ up }) => up)).toEqual([0, 9, 18, 0])
    expect(places.map(({ x }) => x)).toEqual([10, 10, 10, 40])
  })

  test('stay within the room, however many', () => {
    const random = seeded(7)
    const places = stacked(
      Array.from({ length: 2000 }, () => random() * 300),
      4,
      50,
    )
    for (const { up } of places) expect(up).toBeLessThanOrEqual(50)
  })

  test('none are none', () => {
    expect(stacked([], 4, 50)).toEqual([])
  })
})
