import { beforeEach, expect, test } from 'vitest'
import {
  bandSums,
  castVotes,
  type EdgePixels,
  edgeKernels,
  edgePixels,
  gradientsAt,
  jumpsAcross,
  type LaidPicture,
  layOutSmoothly,
} from '../../src/kernels/edges.ts'
import { meanOfSquares, slopes } from '../../src/kernels/planes.ts'
import { seeded } from '../random.ts'

// Against the definitions in plain TypeScript, to the last bit: the same steps in the same order, in double precision.
const [WIDTH, HEIGHT] = [37, 29]
const next = seeded(23)
const plane = () => Float32Array.from({ length: WIDTH * HEIGHT }, () => 100 * next())
const lab = { L: plane(), a: plane(), b: plane() }
const planes = [lab.L, lab.a, lab.b]
const at = (values: Float32Array, x: number, y: number) => values[y * WIDTH + x] as number

let picture: LaidPicture
beforeEach(() => {
  picture = layOutSmoothly({ lab, width: WIDTH, height: HEIGHT }, 2).plain
})

test('a picture as it is and without its grain, and how fast the lightness of that changes', () => {
  const found = layOutSmoothly({ lab, width: WIDTH, height: HEIGHT }, 2)
  const laid = (values: readonly Float32Array[]) =>
    Array.from({ length: WIDTH * HEIGHT }, (_, i) => [...values.map((each) => each[i] as number), 0]).flat()
  const means = planes.map((values) => meanOfSquares(values, WIDTH, HEIGHT, 2))
  const read = (from: number) => [...edgeKernels.memory.floats(from, 4 * WIDTH * HEIGHT)]
  expect(read(found.plain.at)).toEqual(laid(planes))
  expect(read(found.smooth.at)).toEqual(laid(means))
  expect(found.slopes).toEqual(slopes(means[0] as Float32Array, WIDTH, HEIGHT, 2))
})

/** That of the plane that changes fastest. */
function gradient(x: number, y: number, reach: number) {
  const [left, right] = [Math.max(0, x - reach), Math.min(WIDTH - 1, x + reach)]
  const [top, bottom] = [Math.max(0, y - reach), Math.min(HEIGHT - 1, y + reach)]
  const all = planes.map((values) => {
    const dx = (at(values, right, y) - at(values, left, y)) / (right - left)
    const dy = (at(values, x, bottom) - at(values, x, top)) / (bottom - top)
    return { dx, dy, size: Math.sqrt(dx * dx + dy * dy) }
  })
  return all.reduce((most, one) => (one.size > most.size ? one : most))
}

test.each([1, 2, 5])('gradients between the values %i px to each side', (reach) => {
  const pixels = Int32Array.from({ length: WIDTH * HEIGHT }, (_, i) => i)
  const expected = Float32Array.from(pixels, (i) => gradient(i % WIDTH, Math.floor(i / WIDTH), reach).size)
  expect(gradientsAt(picture, pixels, reach)).toEqual(expected)
})

test.each([
  [2, 12, 7.5],
  [2, 20, 0],
  [1, 40, 100],
  [3, 5, 4],
])(
  'edge pixels by values %i px to each side, of gradients of %f, not within %f px',
  (reach, least, radius) => {
    const around = { x: 15.3, y: 12.1, radius }
    const expected: number[] = []
    for (let y = 3; y < HEIGHT - 4; y++)
      for (let x = 1; x < WIDTH - 1; x++) {
        const { dx, dy, size } = gradient(x, y, reach)
        const isAround = (x + 0.5 - around.x) ** 2 + (y + 0.5 - around.y) ** 2 < radius ** 2
        if (size >= least && !isAround) expected.push(x + 0.5, y + 0.5, dx, dy, Math.min(25, size))
      }
    const found = edgePixels(picture, { reach, first: 3, end: HEIGHT - 4, least, most: 25, around })
    expect([...edgeKernels.memory.doubles(found.at, 5 * found.count)]).toEqual(expected)
    expect(found.count > 0).toBe(radius < 100)
  },
)

test('votes for the lines through edge pixels that their gradients are about square to', () => {
  const [angles, near, step, rhos, reach] = [180, 4, 2, 61, 30]
  const bins = Array.from({ length: 2 * (angles + near) + 1 }, (_, i) => (i - near + angles) % angles)
  const angleOf = (bin: number) => (bin * Math.PI) / angles
  const [cosines, sines] = [
    bins.map((bin) => Math.cos(angleOf(bin))),
    bins.map((bin) => Math.sin(angleOf(bin))),
  ]
  const normals = Float64Array.from([...cosines, ...sines, ...bins.map((bin) => bin * rhos + reach)])
  const middle = { x: WIDTH / 2, y: HEIGHT / 2 }
  const edges = Array.from({ length: 500 }, () => {
    const [x, y] = [Math.floor(WIDTH * next()) + 0.5, Math.floor(HEIGHT * next()) + 0.5]
    return [x, y, next() - 0.5, next() - 0.5, next()] as const
  })
  const expected = new Float32Array(angles * rhos)
  for (const [x, y, dx, dy, weight] of edges) {
    const first = Math.floor((Math.atan2(dy, dx) * angles) / Math.PI + 0.5) + angles
    for (let k = first; k <= first + 2 * near; k++) {
      const rho = (x - middle.x) * (cosines[k] as number) + (y - middle.y) * (sines[k] as number)
      const bin = (bins[k] as number) * rhos + reach + Math.floor(rho / step + 0.5)
      expected[bin] = (expected[bin] as number) + weight
    }
  }
  const put: EdgePixels = {
    at: edgeKernels.memory.put(Float64Array.from(edges.flat())),
    count: edges.length,
  }
  const found = castVotes(put, { middle, angles, near, step, normals, size: angles * rhos })
  expect(found).toEqual(expected)
})

const LINES = [
  { x: 3.2, y: 0, angle: 1.4, length: 29 },
  { x: 0, y: 20.7, angle: -0.3, length: 38 },
  { x: 30, y: 0, angle: Math.PI / 2, length: 28.9 },
  { x: 8, y: 8, angle: 0, length: 2 },
].map(({ x, y, angle, length }) => {
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)]
  return { x, y, dx, dy, nx: -dy, ny: dx, length }
})

test('jumps across lines', () => {
  const look = { apart: 3, stride: 3, most: 30, below: 24 }
  const inside = (place: number, size: number) => Math.min(size - 1, Math.max(0, Math.floor(place)))
  const expected = LINES.flatMap(({ x, y, dx, dy, nx, ny, length }) => {
    const sums = [0, 0, 0, 0]
    for (let t = 3; t < length - 3 && y + t * dy <= look.below; t += 3) {
      const value = (values: Float32Array, side: number) =>
        at(values, inside(x + t * dx + side * (3 * nx), WIDTH), inside(y + t * dy + side * (3 * ny), HEIGHT))
      const changes = planes.map((values) =>
        Math.max(-30, Math.min(30, value(values, -1) - value(values, 1))),
      )
      for (const [k, change] of [1, ...changes].entries()) sums[k] = (sums[k] as number) + change
    }
    return sums
  })
  expect([...jumpsAcross(picture, LINES, look)]).toEqual(expected)
  expect(expected[0]).toBeGreaterThan(5)
  expect(expected[12]).toBe(0)
})

test.each(LINES.slice(0, 3))('sums over both sides of a line from $x, $y', (line) => {
  const pieces = Float64Array.of(0.5, 9, 25)
  const look = { length: 6, shift: 1.25, from: 3, to: 8 }
  const expected = [...pieces].flatMap((begin) =>
    [1, -1].flatMap((side) => {
      const sums = new Float64Array(9)
      let seen = 0
      for (let step = 0; step < look.length; step++)
        for (let away = look.from; away <= look.to; away++) {
          const inward = look.shift + side * away
          const x = line.x + (begin + step) * line.dx + inward * line.nx
          const y = line.y + (begin + step) * line.dy + inward * line.ny
          if (x < 0 || y < 0 || x >= WIDTH || y >= HEIGHT) continue
          const colors = planes.map((values) => at(values, Math.floor(x), Math.floor(y)))
          const distance = side * away
          const all = [1, distance, distance ** 2, ...colors, ...colors.map((color) => color * distance)]
          for (const [k, value] of all.entries()) sums[k] = (sums[k] as number) + value
          seen |= 1 << away
        }
      return [...sums, seen]
    }),
  )
  expect([...bandSums(picture, line, pieces, look)]).toEqual(expected)
  expect(expected.some((value) => value > 1000)).toBe(true)
})
