import { expect, test } from 'vitest'
import { addColorAt } from '../../src/imaging/interpolate.ts'
import { colorSums } from '../../src/kernels/sampling.ts'
import { seeded } from '../random.ts'

// To the last bit: the same steps in the same order, in double precision.
test.each([
  ['upright', 20, 15, { x: 0, y: 1 }, 2.3],
  ['leaning, and beyond the frame', 18, 14, { x: -0.28, y: 0.96 }, 4.1],
  ['far outside', 300, -200, { x: 0, y: 1 }, 1],
])('cells of a grid %s', (_, x, y, axis, unit) => {
  const next = seeded(3)
  const [width, height, places] = [40, 30, 3]
  const picture = {
    data: Uint8Array.from({ length: 3 * width * height }, () => Math.floor(256 * next())),
    width,
    height,
  }
  const across = Float64Array.from({ length: 5 * places }, (_, i) => (i - 7) / places)
  const along = Float64Array.from({ length: 4 * places }, (_, i) => (i - 5) / places)
  const expected = Array.from({ length: 4 * 5 }, (_, cell) => {
    const [column, row] = [cell % 5, Math.floor(cell / 5)]
    const sum = new Float64Array(3)
    for (const v of along.subarray(row * places, (row + 1) * places))
      for (const u of across.subarray(column * places, (column + 1) * places))
        addColorAt(sum, picture, x + unit * (u * axis.y + v * axis.x), y + unit * (v * axis.y - u * axis.x))
    return [...sum]
  }).flat()
  const grid = { origin: { x, y }, axis, unit, across, along, places }
  expect([...colorSums(picture, grid)]).toEqual(expected)
})
