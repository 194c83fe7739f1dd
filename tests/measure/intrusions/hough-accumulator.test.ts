import { describe, expect, test } from 'vitest'
import { edgeKernels } from '../../../src/kernels/edges.ts'
import { HoughAccumulator } from '../../../src/measure/intrusions/hough-accumulator.ts'

const WIDTH = 120
const HEIGHT = 160

/** The edge pixels on a line through the frame; `turn` is added to the direction of their gradient, radians. */
function edgeOn(angle: number, rho: number, turn = 0): number[][] {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const edges: number[][] = []
  for (let y = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++) {
      if (Math.abs((x + 0.5 - WIDTH / 2) * cos + (y + 0.5 - HEIGHT / 2) * sin - rho) > 0.5) continue
      edges.push([x + 0.5, y + 0.5, Math.cos(angle + turn), Math.sin(angle + turn), 1])
    }
  }
  return edges
}

function votesOf(edges: readonly number[][]): HoughAccumulator {
  const accumulator = new HoughAccumulator(WIDTH, HEIGHT)
  accumulator.vote({ at: edgeKernels.memory.put(Float64Array.from(edges.flat())), count: edges.length })
  return accumulator
}

const strongest = (accumulator: HoughAccumulator) =>
  accumulator.peaks(20).toSorted((p, q) => q.votes - p.votes)[0]

// The definition: x cos(angle) + y sin(angle) = rho (Duda and Hart 1972).
describe('a line comes out as it was drawn', () => {
  test.each([
    ['upright', 0, 40],
    ['level', Math.PI / 2, -30],
    ['leaning', (30 * Math.PI) / 180, 24],
    ['the other way', (140 * Math.PI) / 180, -24],
  ])('%s', (_, angle, rho) => {
    const edges = edgeOn(angle, rho)
    const peak = strongest(votesOf(edges))
    expect(Math.abs((peak?.angle ?? 9) - angle)).toBeLessThan(0.02)
    expect(Math.abs((peak?.rho ?? 99) - rho)).toBeLessThanOrEqual(2)
    expect(peak?.votes).toBeGreaterThan(0.8 * edges.length)
  })
})

test('gradients from dark to light and from light to dark vote for the same line', () => {
  const edges = [...edgeOn(0.4, 20), ...edgeOn(0.4, 20, Math.PI)]
  expect(strongest(votesOf(edges))?.votes).toBeGreaterThan(0.8 * edges.length)
})

test('edge pixels whose gradient points elsewhere do not vote for it', () => {
  const accumulator = votesOf(edgeOn(0.4, 20, 0.3))
  expect(accumulator.peaks(20).filter(({ angle }) => Math.abs(angle - 0.4) < 0.02)).toEqual([])
})

test('one peak stands for a line at the seam of the angles', () => {
  expect(votesOf(edgeOn(0, 40)).peaks(60)).toHaveLength(1)
})
