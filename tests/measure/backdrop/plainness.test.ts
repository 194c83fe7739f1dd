import { expect, test } from 'vitest'
import { plainShare } from '../../../src/measure/backdrop/plainness.ts'
import { headWindow } from '../../../src/measure/person/person-mask.ts'
import { type Paint, personMask, scene, sitter, sitterGeometry } from '../scene.ts'

const [WIDTH, HEIGHT] = [320, 400]
const face = sitterGeometry(0.1, WIDTH, HEIGHT)
const isSitter = sitter(0.1)

function share(backdrop: Paint, foreign: Uint8Array | null = null): number | null {
  const { lab } = scene(WIDTH, HEIGHT, (x, y) => (isSitter(x, y) ? [60, 45, 40] : backdrop(x, y)))
  const mask = personMask(isSitter, WIDTH, HEIGHT, headWindow(face))
  return plainShare(lab, { width: WIDTH, height: HEIGHT, foreign }, face, mask)
}

const wall: Paint = (x, y) => {
  const code = Math.round(200 - 60 * x - 40 * y ** 2)
  return [code, code, code - 10]
}

test('a graded wall follows one surface', () => {
  expect(share(wall)).toBeGreaterThan(0.99)
})

const stripes: Paint = (x) => (Math.floor(x * 16) % 2 === 0 ? [230, 230, 230] : [90, 110, 140])
const room: Paint = (x, y) => {
  if (x < 0.3) return [240, 244, 250]
  return y < 0.3 ? [120, 90, 60] : [60, 90, 50]
}

test.each([
  ['stripes', stripes],
  ['a window, a shelf and a plant', room],
])('%s do not', (_, paint) => {
  expect(share(paint)).toBeLessThan(0.7)
})

test('what is known to stand there and the sitter do not count', () => {
  const withStand: Paint = (x, y) => (x < 0.15 ? [20, 20, 20] : wall(x, y))
  const foreign = new Uint8Array(WIDTH * HEIGHT)
  for (let i = 0; i < foreign.length; i++) foreign[i] = (i % WIDTH) / WIDTH < 0.15 ? 1 : 0
  expect(share(withStand, foreign)).toBeGreaterThan(0.99)
  expect(share(withStand)).toBeLessThan(0.9)
})

test('none is told of a sitter who fills the frame', () => {
  const near = { ...face, eyeDistance: 0.3 * WIDTH }
  const mask = personMask(() => true, WIDTH, HEIGHT, headWindow(near))
  const { lab } = scene(WIDTH, HEIGHT, wall)
  expect(plainShare(lab, { width: WIDTH, height: HEIGHT, foreign: null }, near, mask)).toBeNull()
})
