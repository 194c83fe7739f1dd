import { expect, test } from 'vitest'
import { type Axis, isEmpty, polygonOf, startsOf } from '../../src/framing/axis.ts'

const FREE = { min: 0, max: Infinity }
const axis = (changes: Partial<Axis>): Axis => ({
  room: { min: 0, max: 3000 },
  size: FREE,
  marks: [],
  ...changes,
})

test('a frame alone allows every size up to its own, and every start that ends in it', () => {
  const polygon = polygonOf(axis({}))
  expect(polygon.size).toEqual({ min: 0, max: 3000 })
  expect(startsOf(polygon, 3000)).toEqual({ min: 0, max: 0 })
  expect(startsOf(polygon, 2900)).toEqual({ min: 0, max: 100 })
  expect(isEmpty(startsOf(polygon, 3001))).toBe(true)
})

test('a mark that must lie 6 to 12 % down bounds the size where the frame ends above it', () => {
  // At the top edge of the frame the mark, 150 px down, is 6 % of 2500 px: no larger crop leaves so much above it.
  const polygon = polygonOf(axis({ marks: [{ at: 150, share: { min: 0.06, max: 0.12 } }] }))
  expect(polygon.size.max).toBeCloseTo(2500, 9)
  // 6 to 12 % of 2000 px are 120 to 240 px; 240 would begin above the frame.
  expect(startsOf(polygon, 2000)).toEqual({ min: 0, max: 30 })
})

test('two marks bound the size on both sides', () => {
  // 200 and 1200 px down, asked at 10 % and 45 to 55 %: 1000 px are 35 to 45 % of the size.
  const marks = [
    { at: 200, share: { min: 0.1, max: 0.1 } },
    { at: 1200, share: { min: 0.45, max: 0.55 } },
  ]
  const { size } = polygonOf(axis({ room: { min: -1e6, max: 1e6 }, marks }))
  expect(size.min).toBeCloseTo(1000 / 0.45, 9)
  expect(size.max).toBeCloseTo(1000 / 0.35, 9)
})

test('starts are rounded inward to whole px', () => {
  // 10 to 12 % of 333 px are 33.3 to 39.96 px above a mark at 100.5: starts of 60.54 to 67.2.
  const polygon = polygonOf(axis({ marks: [{ at: 100.5, share: { min: 0.1, max: 0.12 } }] }))
  expect(startsOf(polygon, 333)).toEqual({ min: 61, max: 67 })
})

test('marks that contradict each other leave no size', () => {
  // The lower mark would have to lie above the upper one.
  const marks = [
    { at: 500, share: { min: 0.5, max: 0.6 } },
    { at: 600, share: { min: 0.2, max: 0.3 } },
  ]
  expect(isEmpty(polygonOf(axis({ marks })).size)).toBe(true)
})

test('marks at the same share and different places leave no size', () => {
  const share = { min: 0.4, max: 0.4 }
  expect(isEmpty(polygonOf(axis({ marks: [500, 501].map((at) => ({ at, share })) })).size)).toBe(true)
})

test('open shares bind nothing', () => {
  const marks = [{ at: 500, share: { min: -Infinity, max: Infinity } }]
  expect(polygonOf(axis({ marks })).size).toEqual({ min: 0, max: 3000 })
})

test('the size has limits of its own', () => {
  expect(polygonOf(axis({ size: { min: 1000, max: 2000 } })).size).toEqual({ min: 1000, max: 2000 })
  expect(isEmpty(polygonOf(axis({ size: { min: 4000, max: 5000 } })).size)).toBe(true)
})
