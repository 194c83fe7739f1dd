import { expect, test } from 'vitest'
import { circleContrasts, improvedCircle, layOutSquare } from '../../src/kernels/circles.ts'
import { seeded } from '../random.ts'

const SIZE = 40
const next = seeded(12)
// A dark disk on a light ground, with grain.
const gray = Float32Array.from({ length: SIZE * SIZE }, (_, i) => {
  const off = Math.hypot((i % SIZE) - 21.3, Math.floor(i / SIZE) - 17.8)
  return 60 + 90 / (1 + Math.exp(8 - off)) + 4 * next()
})
const turns = [0, Math.PI].flatMap((side) => [-0.7, -0.2, 0.3, 0.8].map((turn) => side + turn))
const edge = {
  us: Float64Array.from(turns, Math.cos),
  vs: Float64Array.from(turns, Math.sin),
  hidden: 1,
  beside: 1.5,
  steepest: 50,
}

type Circle = readonly [x: number, y: number, radius: number]

function grayAt(x: number, y: number): number {
  const [column, row] = [Math.floor(x), Math.floor(y)]
  if (column < 0 || row < 0 || column >= SIZE - 1 || row >= SIZE - 1) return 0
  const at = (i: number) => gray[row * SIZE + column + i] as number
  const [right, down] = [x - column, y - row]
  const upper = at(0) * (1 - right) + at(1) * right
  const lower = at(SIZE) * (1 - right) + at(SIZE + 1) * right
  return upper * (1 - down) + lower * down
}

/** To the last bit: the same steps in the same order. */
function contrastsOf([x, y, radius]: Circle): [number, number] {
  const sides = [turns.slice(0, 4), turns.slice(4)].map((side) => {
    const steps = side.map((turn) => {
      const [u, v] = [Math.cos(turn), Math.sin(turn)]
      const at = (r: number) => grayAt(x + r * u, y + r * v)
      return Math.min(edge.steepest, at(radius + edge.beside) - at(radius - edge.beside))
    })
    const seen = steps.sort((p, q) => p - q).slice(edge.hidden)
    return seen.reduce((sum, step) => sum + step, 0) / seen.length
  }) as [number, number]
  return [(sides[0] + sides[1]) / 2, Math.min(...sides)]
}

test('how much lighter it is outside of circles', () => {
  const circles: Circle[] = [
    [21, 18, 8],
    [20.5, 17.25, 7.5],
    [3, 38, 6],
  ]
  const found = circleContrasts(layOutSquare(gray, SIZE), edge, Float64Array.from(circles.flat()))
  expect([...found]).toEqual(circles.flatMap(contrastsOf))
  expect(found[0]).toBeGreaterThan(20)
})

test('a circle is moved, widened and narrowed to where its edge is clearest', () => {
  const moves: Circle[] = [
    [1, 0, 0],
    [-1, 0, 0],
    [0, 1, 0],
    [0, -1, 0],
    [0, 0, 0.5],
    [0, 0, -0.5],
  ]
  const [steps, rounds, radii] = [[2, 1, 0.25], 5, { from: 5, to: 9 }]
  let best: Circle = [17, 20, 6]
  for (const step of steps)
    for (let round = 0, moved = true; moved && round < rounds; round++) {
      moved = false
      for (const [right, down, wider] of moves) {
        const radius = Math.min(radii.to, Math.max(radii.from, best[2] + step * wider))
        const there: Circle = [best[0] + step * right, best[1] + step * down, radius]
        if (contrastsOf(there)[0] <= contrastsOf(best)[0]) continue
        best = there
        moved = true
      }
    }
  const search = { moves: Float64Array.from(moves.flat()), steps: Float64Array.from(steps), rounds, radii }
  const found = improvedCircle(layOutSquare(gray, SIZE), edge, [17, 20, 6], search)
  expect([...found]).toEqual([...best, ...contrastsOf(best)])
  expect(Math.hypot(best[0] - 21.3, best[1] - 17.8)).toBeLessThan(0.6)
})
