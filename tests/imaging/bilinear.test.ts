import { describe, expect, test } from 'vitest'
import { bilinear, type Grid, gridOver } from '../../src/imaging/bilinear.ts'

const gridOf = (left: number, top: number, stepX: number, stepY: number): Grid => ({
  first: [left, top],
  column: [stepX, 0],
  row: [0, stepY],
})
const PLAIN = { scale: 1, offset: 0 }

describe('bilinear', () => {
  // 0, 100, 200 from left to right in every row, 10 more in each next one.
  const picture = {
    data: Uint8Array.from(
      [0, 1, 2, 3].flatMap((y) => [0, 100, 200].flatMap((v) => Array(3).fill(v + 10 * y))),
    ),
    width: 3,
    height: 4,
  }
  const red = (values: Float32Array) => Array.from(values).filter((_, i) => i % 3 === 0)

  test('reads between pixels in proportion', () => {
    const grid = gridOf(0.25, 1, 1, 0.5)
    expect(red(bilinear(picture, 2, grid, PLAIN, 'edge'))).toEqual([35, 135, 40, 140])
  })

  test('changes the range', () => {
    const grid = gridOf(0, 0, 1, 0)
    const values = bilinear(picture, 2, grid, { scale: 0.01, offset: -1 }, 'edge')
    expect(red(values)).toEqual([-1, 0, -1, 0])
  })

  test('reads the nearest edge outside the picture, or black before the change of range', () => {
    const grid = gridOf(-1, 2, 2, 2)
    expect(red(bilinear(picture, 2, grid, PLAIN, 'edge'))).toEqual([20, 120, 30, 130])
    expect(red(bilinear(picture, 2, grid, PLAIN, 'black'))).toEqual([0, 120, 0, 0])
    expect(red(bilinear(picture, 2, grid, { scale: 1, offset: 7 }, 'black'))).toEqual([7, 127, 7, 7])
  })
})

// By definition a plane is read exactly, in whichever direction the grid runs.
test.each([
  [0, 1],
  [0.4, 0.7],
  [2.5, 0.3],
])('a slope is read as it is by a grid turned by %f rad with steps of %f px', (angle, step) => {
  const [width, height] = [41, 33]
  const slope = (x: number, y: number) => 20 + 3 * x + 2 * y
  const picture = {
    data: Uint8Array.from({ length: 3 * width * height }, (_, i) => {
      const at = Math.floor(i / 3)
      return slope(at % width, Math.floor(at / width))
    }),
    width,
    height,
  }
  const [cos, sin] = [step * Math.cos(angle), step * Math.sin(angle)]
  const values = bilinear(
    picture,
    12,
    { first: [20, 14], column: [cos, sin], row: [-sin, cos] },
    PLAIN,
    'edge',
  )
  for (let row = 0; row < 12; row++)
    for (let column = 0; column < 12; column++)
      expect(values[3 * (12 * row + column)]).toBeCloseTo(
        slope(20 + column * cos - row * sin, 14 + column * sin + row * cos),
        3,
      )
})

test('cells that cover a window are read in their middles', () => {
  expect(gridOver({ left: 2, top: 3, width: 8, height: 4 }, 4)).toEqual({
    first: [2.5, 3],
    column: [2, 0],
    row: [0, 1],
  })
})
