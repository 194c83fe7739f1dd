import { expect, test } from 'vitest'
import { addColorAt, interpolate, valueAt } from '../../src/imaging/interpolate.ts'

// The definition: linear along one side, then along the other. Worked by hand.
test('between four neighbors', () => {
  expect(interpolate(0, 100, 200, 300, 0.25, 0.5)).toBe(125)
  expect([interpolate(1, 2, 3, 4, 0, 0), interpolate(1, 2, 3, 4, 1, 0)]).toEqual([1, 2])
  expect([interpolate(1, 2, 3, 4, 0, 1), interpolate(1, 2, 3, 4, 1, 1)]).toEqual([3, 4])
})

const picture = {
  data: Uint8Array.of(0, 10, 20, 100, 110, 120, 200, 210, 220, 40, 50, 60),
  width: 2,
  height: 2,
}
const colorAt = (x: number, y: number) => {
  const sum = Float64Array.of(0, 0, 0)
  addColorAt(sum, picture, x, y)
  return [...sum]
}

test('a color at the middle of a pixel is its own, between pixels their mean, and beyond the frame its edge goes on', () => {
  expect(colorAt(0.5, 0.5)).toEqual([0, 10, 20])
  expect(colorAt(1, 1)).toEqual([85, 95, 105])
  expect(colorAt(-9, 0.5)).toEqual([0, 10, 20])
  expect(colorAt(99, 99)).toEqual([40, 50, 60])
})

test('colors add up', () => {
  const sum = Float64Array.of(1, 2, 3)
  addColorAt(sum, picture, 1.5, 0.5)
  expect([...sum]).toEqual([101, 112, 123])
})

test('a value of a plane the same way', () => {
  const plane = Float32Array.of(0, 100, 200, 40)
  expect([valueAt(plane, 2, 2, 0.5, 0.5), valueAt(plane, 2, 2, 1, 1)]).toEqual([0, 85])
  expect([valueAt(plane, 2, 2, -3, 9), valueAt(plane, 2, 2, 9, 9)]).toEqual([200, 40])
})
