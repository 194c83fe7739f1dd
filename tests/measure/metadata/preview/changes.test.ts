import { expect, test } from 'vitest'
import { findChanges } from '../../../../src/measure/metadata/preview/changes.ts'

const SIZE = 20
const planes = (L: (x: number, y: number) => number, a: (x: number, y: number) => number = () => 0) => {
  const plane = (of: (x: number, y: number) => number) =>
    Float32Array.from({ length: SIZE * SIZE }, (_, i) => of(i % SIZE, Math.floor(i / SIZE)))
  return { L: plane(L), a: plane(a), b: plane(() => 0) }
}
const most = (map: Float32Array) => map.reduce((high, value) => Math.max(high, value), 0)
const changes = (one: ReturnType<typeof planes>, other: ReturnType<typeof planes>) =>
  findChanges(one, other, SIZE, SIZE)

test('an edge that lies a pixel elsewhere is no change, two pixels are', () => {
  const edge = (at: number) => planes((x) => (x < at ? 20 : 90))
  expect(most(changes(edge(10), edge(11)))).toBe(0)
  // One column of three is off by 70.
  expect(most(changes(edge(10), edge(12)))).toBeCloseTo(70 / 3, 4)
})

test('a single pixel is worth a ninth, a spot of 3 x 3 pixels all of it', () => {
  const flat = planes(() => 80)
  const pixel = planes((x, y) => (x === 10 && y === 10 ? 44 : 80))
  const spot = planes((x, y) => (Math.abs(x - 10) < 2 && Math.abs(y - 10) < 2 ? 44 : 80))
  expect(most(changes(pixel, flat))).toBeCloseTo(4, 4)
  const map = changes(spot, flat)
  expect(most(map)).toBeCloseTo(36, 4)
  expect(map[10 * SIZE + 10]).toBeCloseTo(36, 4)
})

test('color counts half', () => {
  const spot = planes(
    () => 80,
    (x, y) => (Math.abs(x - 10) < 2 && Math.abs(y - 10) < 2 ? 36 : 0),
  )
  expect(
    most(
      changes(
        spot,
        planes(() => 80),
      ),
    ),
  ).toBeCloseTo(18, 4)
})

test('at the frame’s edge too', () => {
  const corner = planes((x, y) => (x < 2 && y < 2 ? 44 : 80))
  expect(
    changes(
      corner,
      planes(() => 80),
    )[0],
  ).toBeCloseTo(36, 4)
})
