import { expect, test } from 'vitest'
import { floodFill } from '../../src/kernels/flood.ts'

test('a flood goes around a bend, not past a corner', () => {
  // biome-ignore format: rows of a picture.
  const open = Uint8Array.of(
    1, 0, 1, 1,
    1, 1, 1, 0,
    0, 0, 0, 1,
  )
  expect([...floodFill(open, 4, [0])]).toEqual([1, 0, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0])
})

test('a comb, whose every other pixel is another run, leaves room for all of them', () => {
  const [width, height] = [801, 400]
  const comb = Uint8Array.from({ length: width * height }, (_, i) =>
    Math.floor(i / width) % 2 === 0 || (i % width) % 2 === 0 ? 1 : 0,
  )
  // Compared as a whole: value by value takes seconds.
  expect(Buffer.compare(floodFill(comb, width, [0]), comb)).toBe(0)
})
