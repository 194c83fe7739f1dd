import { expect, test } from 'vitest'
import { type ByteGrid, withGrids } from '../../src/kernels/grids/grids.ts'
import { FINER, likeness } from '../../src/likeness/grid-likeness.ts'
import { seeded } from '../random.ts'

const [COLUMNS, ROWS] = [44, 52]

/** Cells of some texture, coarse and fine, in codes. */
function texture(seed: number): number[] {
  const random = seeded(seed)
  const coarse = blurred(
    Array.from({ length: COLUMNS * ROWS }, () => 255 * random()),
    1.2,
  )
  return coarse.map((cell) => 128 + 2 * (cell - 128) + 60 * (random() - 0.5))
}

/** By a Gaussian, in plain code; beyond the border the outermost cells go on. */
function blurred(cells: readonly number[], sigma: number): number[] {
  const reach = Math.ceil(4 * sigma)
  const weights = Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / (2 * sigma ** 2)),
  )
  const sum = weights.reduce((all, one) => all + one, 0)
  const along = (from: readonly number[], dx: number, dy: number) =>
    from.map((_, i) => {
      const [x, y] = [i % COLUMNS, Math.floor(i / COLUMNS)]
      return weights.reduce((all, weight, k) => {
        const column = Math.min(COLUMNS - 1, Math.max(0, x + dx * (k - reach)))
        const row = Math.min(ROWS - 1, Math.max(0, y + dy * (k - reach)))
        return all + (weight / sum) * (from[row * COLUMNS + column] as number)
      }, 0)
    })
  return along(along(cells, 1, 0), 0, 1)
}

function gridOf(cells: readonly number[]): ByteGrid {
  return {
    columns: COLUMNS,
    rows: ROWS,
    luma: Uint8Array.from(cells, (cell) => Math.min(255, Math.max(1, Math.round(cell)))),
  }
}

// What a smaller copy loses lies anywhere between the steps in which it is looked for.
test.each([0.3, 0.4, 0.45, 0.5, 0.55, 0.6, 0.7, 0.9, 1.1, 1.2, 1.5])(
  'a copy that is blurred by %s cells is the same picture, everywhere',
  (sigma) => {
    const sharp = texture(5)
    withGrids((grids) => {
      const found = likeness(
        grids,
        grids.hold(gridOf(sharp)),
        grids.hold(gridOf(blurred(sharp, sigma))),
        FINER,
      )
      expect(found.local()).toBeGreaterThan(0.99)
    })
  },
)
