import { expect, test } from 'vitest'
import { areOfOneFace } from '../../../../src/measure/face/networks/one-face.ts'

const box = (x: number, y: number, width: number, height = width) => ({ x, y, width, height })

// 0.3 is what MediaPipe's graphs ask (from memory).
test.each([
  ['the same box twice', box(10, 10, 8), box(10, 10, 8), true],
  ['half beside each other: a third in common', box(10, 10, 8), box(14, 10, 8), true],
  ['six tenths beside each other: a quarter', box(10, 10, 10), box(16, 10, 10), false],
  ['cheek to cheek', box(10, 10, 10), box(20, 10, 10), false],
  ['one above the other', box(10, 10, 10), box(10, 30, 10), false],
  // One woman in a photograph of a package, whose mesh was fitted from two boxes.
  ['meshes of one face', box(509, 279.5, 58, 63), box(516, 269, 40, 50), true],
])('%s', (_, a, b, isOne) => {
  expect(areOfOneFace(a, b)).toBe(isOne)
  expect(areOfOneFace(b, a)).toBe(isOne)
})
