import { expect, test } from 'vitest'
import { isBody, isHair, sitterRoom, skullShare } from '../../../src/measure/intrusions/sitter-room.ts'
import { sitterGeometry } from '../scene.ts'

const room = sitterRoom(sitterGeometry(0.1, 400, 500))

// ANSUR II, pooled: interpupillary distance is 0.453 of the bizygomatic breadth.
test('the face width follows from the eyes', () => {
  expect(room.faceWidth).toBeCloseTo((2 * 0.062 * 400) / 0.453, 6)
})

test('where skin and hair are not backdrop no share of the skull is, where all is it is whole', () => {
  expect(skullShare(room, new Uint8Array(400 * 500), 400)).toBe(0)
  expect(skullShare(room, new Uint8Array(400 * 500).fill(1), 400)).toBe(1)
})

test('hair is above the eyes and near the head', () => {
  expect(isHair(room, { x: 200, y: 0.2 * 500 })).toBe(true)
  expect(isHair(room, { x: 200, y: 0.4 * 500 })).toBe(false)
  expect(isHair(room, { x: 10, y: 0.2 * 500 })).toBe(false)
})

test('the body begins under the chin and is broader than the face', () => {
  expect(isBody(room, { x: 200, y: 0.4 * 500 })).toBe(false)
  expect(isBody(room, { x: 200, y: 0.7 * 500 })).toBe(true)
  expect(isBody(room, { x: 200 + 3 * room.faceWidth, y: 0.7 * 500 })).toBe(true)
  expect(isBody(room, { x: 200 + 3.5 * room.faceWidth, y: 0.7 * 500 })).toBe(false)
})
