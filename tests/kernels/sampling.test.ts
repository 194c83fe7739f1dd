import { expect, test } from 'vitest'
import { addColorAt, interpolate, within } from '../../src/imaging/interpolate.ts'
import { colorSums, colorsAt, graySquare, graySums } from '../../src/kernels/sampling.ts'
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

// The same; what a place has is then a float.
test.each([
  ['black', { scale: 2 / 255, offset: -1 }, [-3.2, 5.4]],
  ['the nearest edge', { scale: 1, offset: 0 }, [-3.2, 5.4]],
  ['the nearest edge', { scale: 1, offset: 0 }, [4, -60]],
  ['the nearest edge', { scale: 1, offset: 0 }, [4, 60]],
] as const)(
  'colors at places of a leaning square, and %s outside the picture',
  (outside, { scale, offset }, first) => {
    const next = seeded(4)
    const [width, height, size] = [23, 31, 12]
    const data = Uint8Array.from({ length: 3 * width * height }, () => Math.floor(256 * next()))
    const places = { size, first, column: [2.3, 0.7], row: [-0.7, 2.3] } as const
    const isBlack = outside === 'black'
    const expected = Array.from({ length: size * size }, (_, i) => {
      const [column, row] = [i % size, Math.floor(i / size)]
      const at = (k: 0 | 1) => places.first[k] + column * places.column[k] + row * places.row[k]
      const [x, y] = [within(at(0), width - 1), within(at(1), height - 1)]
      if (isBlack && (x !== at(0) || y !== at(1))) return [offset, offset, offset]
      const [left, top] = [Math.floor(x), Math.floor(y)]
      const [right, below] = [Math.min(width - 1, left + 1), Math.min(height - 1, top + 1)]
      return [0, 1, 2].map((channel) => {
        const pixel = (column: number, row: number) => data[3 * (width * row + column) + channel] as number
        const [a, b, c, d] = [pixel(left, top), pixel(right, top), pixel(left, below), pixel(right, below)]
        return interpolate(a, b, c, d, x - left, y - top) * scale + offset
      })
    }).flat()
    const picture = { data, width, height }
    expect([...colorsAt(picture, places, { scale, offset }, isBlack)]).toEqual(expected.map(Math.fround))
  },
)

// To the last bit: the same steps in the same order.
test.each([
  ['within', 3.2, 4.7],
  ['beyond the left and the top', -3.4, -2.2],
  ['beyond the right and the bottom', 9.1, 8.3],
])('a square in gray %s', (_, left, top) => {
  const [width, height, size, step] = [14, 13, 6, 1.3]
  const next = seeded(3)
  const data = Uint8Array.from({ length: 3 * width * height }, () => Math.floor(256 * next()))
  const weights = { red: 0.5, green: 0.3, blue: 0.2 }
  const codes = (x: number, y: number) => {
    const at = (channel: number) => data[3 * (y * width + x) + channel] as number
    return weights.red * at(0) + weights.green * at(1) + weights.blue * at(2)
  }
  const expected = Float32Array.from({ length: size * size }, (_, i) => {
    const px = Math.min(width - 1, Math.max(0, left + (i % size) * step - 0.5))
    const py = Math.min(height - 1, Math.max(0, top + Math.floor(i / size) * step - 0.5))
    const [x, y] = [Math.floor(px), Math.floor(py)]
    const [right, down] = [Math.min(width - 1, x + 1), Math.min(height - 1, y + 1)]
    return interpolate(codes(x, y), codes(right, y), codes(x, down), codes(right, down), px - x, py - y)
  })
  expect(graySquare({ data, width, height }, { left, top, step, size }, weights)).toEqual(expected)
})

// The same.
test('cells of a leaning grid in gray, and none where a place lies outside', () => {
  const [width, height, places, columns, rows] = [14, 13, 3, 4, 5]
  const next = seeded(6)
  const data = Uint8Array.from({ length: 3 * width * height }, () => Math.floor(256 * next()))
  const weights = { red: 0.5, green: 0.3, blue: 0.2 }
  const gray = (x: number, y: number) => {
    const at = (channel: number) => data[3 * (y * width + x) + channel] as number
    return weights.red * at(0) + weights.green * at(1) + weights.blue * at(2)
  }
  const line = (length: number, step: number, first: number) =>
    Float64Array.from({ length }, (_, i) => first + i * step)
  const xs = line(columns * places, 1.15, -0.2)
  const ys = line(columns * places, 0.1, 0.3)
  const downXs = line(rows * places, -0.1, 0.9)
  const downYs = line(rows * places, 0.81, 0)
  const grayAt = (px: number, py: number) => {
    const [x, y] = [px - 0.5, py - 0.5]
    if (x < -0.5 || y < -0.5 || x > width - 0.5 || y > height - 0.5) return Number.NaN
    const [left, top] = [within(Math.floor(x), width - 1), within(Math.floor(y), height - 1)]
    const [right, below] = [Math.min(width - 1, left + 1), Math.min(height - 1, top + 1)]
    const corners = [gray(left, top), gray(right, top), gray(left, below), gray(right, below)] as const
    return interpolate(...corners, within(x - left, 1), within(y - top, 1))
  }
  const expected = Array.from({ length: columns * rows }, (_, cell) => {
    let sum = 0
    for (let j = 0; j < places; j++)
      for (let i = 0; i < places; i++) {
        const [across, along] = [(cell % columns) * places + i, Math.floor(cell / columns) * places + j]
        sum += grayAt(
          (xs[across] as number) + (downXs[along] as number),
          (ys[across] as number) + (downYs[along] as number),
        )
      }
    return sum
  })
  const sums = [...graySums({ data, width, height }, { xs, ys, downXs, downYs, places }, weights)]
  expect(sums).toEqual(expected)
  expect(new Set(sums.map(Number.isNaN))).toEqual(new Set([true, false]))
})
