import { describe, expect, test } from 'vitest'
import { type Axis, polygonOf } from '../../src/framing/axis.ts'
import { type CropAxes, largestFit, smallestFit } from '../../src/framing/fit.ts'
import type { Shape } from '../../src/framing/shape.ts'

const edge = (length: number, changes: Partial<Axis> = {}) =>
  polygonOf({ room: { min: 0, max: length }, size: { min: 0, max: Infinity }, marks: [], ...changes })
const ANY = { min: 1, max: Infinity }
const shape = (ratio: number, changes: Partial<Shape> = {}): Shape => ({
  ratio: { min: ratio, max: ratio },
  width: ANY,
  height: ANY,
  ...changes,
})
const sides = (changes: Partial<CropAxes>): CropAxes => ({
  across: edge(2400),
  down: edge(3000),
  shape: shape(0.8),
  tolerance: 0.5,
  ...changes,
})

describe('largestFit', () => {
  test.each([
    ['the frame has the ratio', 0.8, 2400, 3000],
    ['the width binds', 1, 2400, 2400],
    ['the height binds', 0.5, 1500, 3000],
    // 4/3 of 1800 px are 2400.
    ['a lying ratio', 4 / 3, 2400, 1800],
  ])('%s', (_, ratio, width, height) => {
    expect(largestFit(sides({ shape: shape(ratio) }))).toMatchObject({ width, height })
  })

  test('any ratio in a range', () => {
    const range = { ...shape(0), ratio: { min: 0.5, max: 0.7 } }
    expect(largestFit(sides({ shape: range }))).toMatchObject({ width: 2100, height: 3000 })
    expect(largestFit(sides({ shape: { ...range, ratio: { min: 0.9, max: 1.2 } } }))).toMatchObject({
      width: 2400,
      height: 2667,
    })
  })

  test('all of the tolerance of 1 px where it is allowed', () => {
    const down = edge(3000, { size: { min: 0, max: 2500 } })
    expect(largestFit(sides({ down, tolerance: 0.5 }))).toMatchObject({ width: 2000, height: 2500 })
    expect(largestFit(sides({ down, tolerance: 1 }))).toMatchObject({ width: 2001, height: 2500 })
  })

  test('a size that no whole pixel meets is passed over', () => {
    // The mark must lie in the very middle: only even sizes begin at a whole pixel.
    const down = edge(3000, {
      marks: [{ at: 1500, share: { min: 0.5, max: 0.5 } }],
      size: { min: 0, max: 2001 },
    })
    expect(largestFit(sides({ down, across: edge(1e6), shape: shape(1) }))).toMatchObject({
      height: 2000,
      width: 2000,
      top: { min: 500, max: 500 },
    })
  })

  test('none', () => {
    expect(largestFit(sides({ shape: shape(0.8, { height: { min: 3001, max: Infinity } }) }))).toBeNull()
    expect(
      largestFit(sides({ down: edge(3000, { size: { min: 0, max: 1000 } }), across: edge(500) })),
    ).toMatchObject({ width: 500 })
    const tall = edge(3000, { size: { min: 2000, max: 3000 } })
    expect(largestFit(sides({ down: tall, across: edge(500) }))).toBeNull()
    const never = edge(3000, { marks: [{ at: 1500.3, share: { min: 0.5, max: 0.5 } }] })
    expect(largestFit(sides({ down: never }))).toBeNull()
    expect(largestFit(sides({ across: never }))).toBeNull()
  })
})

describe('smallestFit', () => {
  test('the least that the shape asks', () => {
    const least = shape(0.8, { width: { min: 1200, max: 1200 }, height: { min: 1500, max: 1500 } })
    expect(smallestFit(sides({ shape: least }))).toMatchObject({ width: 1200, height: 1500 })
  })

  test('the least that an edge allows', () => {
    const down = edge(3000, { size: { min: 1000.2, max: 3000 } })
    // 0.8 of 1001 px are 800.8; within half a pixel of it 801.
    expect(smallestFit(sides({ down }))).toMatchObject({ width: 801, height: 1001 })
  })

  test('a wide mark makes the height grow with the width', () => {
    const across = edge(2400, { size: { min: 1600, max: 2400 } })
    expect(smallestFit(sides({ across }))).toMatchObject({ width: 1600, height: 2000 })
  })

  test('none', () => {
    expect(smallestFit(sides({ shape: shape(0.8, { width: { min: 2401, max: Infinity } }) }))).toBeNull()
    const never = edge(3000, { marks: [{ at: 1500.3, share: { min: 0.5, max: 0.5 } }] })
    expect(smallestFit(sides({ down: never }))).toBeNull()
    expect(smallestFit(sides({ across: never }))).toBeNull()
  })
})
