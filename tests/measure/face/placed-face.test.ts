import { expect, test } from 'vitest'
import type { LocatedFace } from '../../../src/measure/face/find-faces.ts'
import { scaledFace } from '../../../src/measure/face/placed-face.ts'

test('places and depths of a face scale, its angles and score stay', () => {
  const face: LocatedFace = {
    score: 0.9,
    box: [10, 20, 30, 40],
    mesh: [[12, 24, -3]],
    irises: [
      [15, 30],
      [25, 31],
    ],
    irisesSeen: true,
    pitch: 0.1,
    yaw: -0.2,
  }
  expect(scaledFace(face, 2)).toEqual({
    score: 0.9,
    box: [20, 40, 60, 80],
    mesh: [[24, 48, -6]],
    irises: [
      [30, 60],
      [50, 62],
    ],
    irisesSeen: true,
    pitch: 0.1,
    yaw: -0.2,
  })
})
