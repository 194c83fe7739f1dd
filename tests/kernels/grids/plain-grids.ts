import { interpolate } from '../../../src/imaging/interpolate.ts'
import type { ByteGrid, Similarity } from '../../../src/kernels/grids/grids.ts'
import type { JointSums } from '../../../src/kernels/grids/joint-sums.ts'
import { solveSystem } from '../../../src/numbers/linear-system.ts'

/*
 * What the kernels on grids are to give, written for reading: over numbers in double precision, row by row, 0 where there is none.
 */

export interface PlainGrid {
  readonly columns: number
  readonly rows: number
  readonly luma: Float64Array
}

export function plain({ columns, rows, luma }: ByteGrid): PlainGrid {
  return { columns, rows, luma: Float64Array.from(luma) }
}

function each({ columns, rows }: Pick<PlainGrid, 'columns' | 'rows'>, of: (x: number, y: number) => number) {
  return Float64Array.from({ length: columns * rows }, (_, i) => of(i % columns, Math.floor(i / columns)))
}

/** 0 outside. */
function at({ columns, rows, luma }: PlainGrid, x: number, y: number): number {
  return x < 0 || y < 0 || x >= columns || y >= rows ? 0 : (luma[y * columns + x] as number)
}

/** Read between cells linearly at moved places; 0 where one of the four cells around is none. */
export function moved(grid: PlainGrid, { a, b, dx, dy }: Similarity, onto: PlainGrid): PlainGrid {
  const { columns, rows } = onto
  const luma = each(onto, (column, row) => {
    const [x, y] = [column - (columns - 1) / 2, row - (rows - 1) / 2]
    const px = a * x - b * y + (grid.columns - 1) / 2 + dx
    const py = b * x + a * y + (grid.rows - 1) / 2 + dy
    const [x0, y0] = [Math.floor(px), Math.floor(py)]
    const [p, q, r, s] = [
      at(grid, x0, y0),
      at(grid, x0 + 1, y0),
      at(grid, x0, y0 + 1),
      at(grid, x0 + 1, y0 + 1),
    ]
    return p * q * r * s === 0 ? 0 : interpolate(p, q, r, s, px - x0, py - y0)
  })
  return { columns, rows, luma }
}

export function jointSums(
  { luma: p }: Pick<PlainGrid, 'luma'>,
  { luma: q }: Pick<PlainGrid, 'luma'>,
): JointSums {
  const both = [...p.keys()].flatMap((i) => (p[i] && q[i] ? [[p[i] as number, q[i] as number] as const] : []))
  const sum = (of: (a: number, b: number) => number) => both.reduce((all, [a, b]) => all + of(a, b), 0)
  return {
    count: both.length,
    sumA: sum((a) => a),
    sumB: sum((_, b) => b),
    squaresA: sum((a) => a * a),
    squaresB: sum((_, b) => b * b),
    products: sum((a, b) => a * b),
  }
}

export function correlation({ count: n, sumA, sumB, squaresA, squaresB, products }: JointSums): number {
  const both = (n * squaresA - sumA ** 2) * (n * squaresB - sumB ** 2)
  return (n * products - sumA * sumB) / Math.sqrt(both)
}

/** Correlation over the cells that a step is found from. */
export function likenessInside(first: PlainGrid, now: PlainGrid): number {
  const cells = factors(first, now).map((row) => [row[4] as number, (row[4] as number) + (row[6] as number)])
  const luma = (k: 0 | 1) => ({ luma: Float64Array.from(cells, (pair) => pair[k] as number) })
  return correlation(jointSums(luma(0), luma(1)))
}

/** By so many steps of Gauss and Newton (see `Grids.align`). */
export function aligned(first: PlainGrid, second: PlainGrid, rounds: number): Similarity {
  let move: Similarity = { a: 1, b: 0, dx: 0, dy: 0 }
  for (let round = 0; round < rounds; round++) {
    const rows = factors(first, moved(second, move, first))
    // Each equation: a factor with all, and with what is wanted.
    const sums = Array.from({ length: 6 * 7 }, (_, at) =>
      rows.reduce((sum, row) => sum + (row[Math.floor(at / 7)] as number) * (row[at % 7] as number), 0),
    )
    const [a, b, dx, dy] = solveSystem(Float64Array.from(sums), 6, 1e-9) ?? []
    move = { a: move.a + (a ?? 0), b: move.b + (b ?? 0), dx: move.dx + (dx ?? 0), dy: move.dy + (dy ?? 0) }
  }
  return move
}

/** The factors of a, b, dx, dy, contrast and brightness, and what is wanted, of each cell that has them all. */
function factors(first: PlainGrid, now: PlainGrid): number[][] {
  const { columns, rows } = first
  const found: number[][] = []
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const [value, wanted] = [at(now, column, row), at(first, column, row)]
      const [left, right] = [at(now, column - 1, row), at(now, column + 1, row)]
      const [above, below] = [at(now, column, row - 1), at(now, column, row + 1)]
      if ([value, wanted, left, right, above, below].includes(0)) continue
      const [gx, gy] = [(right - left) / 2, (below - above) / 2]
      const [x, y] = [column - (columns - 1) / 2, row - (rows - 1) / 2]
      found.push([gx * x + gy * y, gy * x - gx * y, gx, gy, value, 1, wanted - value])
    }
  }
  return found
}

export function squaredSteps(grid: PlainGrid, other: PlainGrid): number {
  return each(grid, (x, y) => {
    const [here, left, above] = [at(grid, x, y), at(grid, x - 1, y), at(grid, x, y - 1)]
    if (here * left * above * at(other, x, y) === 0) return 0
    return (here - left) ** 2 + (here - above) ** 2
  }).reduce((sum, value) => sum + value, 0)
}

export function blurred(grid: PlainGrid, weights: readonly number[]): PlainGrid {
  const reach = (weights.length - 1) / 2
  const swept = (from: PlainGrid, stepX: number, stepY: number): PlainGrid => ({
    ...from,
    luma: each(from, (x, y) => {
      if (at(from, x, y) === 0) return 0
      const values = weights.map((_, k) => at(from, x + (k - reach) * stepX, y + (k - reach) * stepY))
      const sum = (of: readonly number[]) =>
        of.reduce((all, value, k) => all + value * (weights[k] as number), 0)
      return sum(values) / sum(values.map((value) => (value === 0 ? 0 : 1)))
    }),
  })
  return swept(swept(grid, 1, 0), 0, 1)
}

function square(reach: number): [dx: number, dy: number][] {
  const steps = Array.from({ length: 2 * reach + 1 }, (_, k) => k - reach)
  return steps.flatMap((dy) => steps.map((dx): [number, number] => [dx, dy]))
}

export function details(grid: PlainGrid, near: number, wide: number, middle: number): PlainGrid {
  const mean = (x: number, y: number, reach: number) => {
    const values = square(reach).map(([dx, dy]) => at(grid, x + dx, y + dy))
    return values.includes(0) ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length
  }
  return {
    ...grid,
    luma: each(grid, (x, y) => {
      const around = mean(x, y, wide)
      return around === 0 ? 0 : middle + mean(x, y, near) - around
    }),
  }
}

/** Of the places whose windows both grids have whole, from the least alike. */
export function places(
  a: PlainGrid,
  b: PlainGrid,
  [gainA, gainB]: readonly [number, number],
  weights: Float64Array,
  c: number,
): number[] {
  const reach = (weights.length - 1) / 2
  const window = square(reach).map(([dx, dy]) => ({
    ...{ dx, dy },
    weight: (weights[dx + reach] as number) * (weights[dy + reach] as number),
  }))
  const found: number[] = []
  for (let y = 0; y < a.rows; y++)
    for (let x = 0; x < a.columns; x++) {
      const cells = window.map(({ dx, dy, weight }) => ({
        weight,
        p: gainA * at(a, x + dx, y + dy),
        q: gainB * at(b, x + dx, y + dy),
      }))
      if (cells.some(({ p, q }) => p === 0 || q === 0)) continue
      const mean = (of: (p: number, q: number) => number) =>
        cells.reduce((sum, { p, q, weight }) => sum + weight * of(p, q), 0)
      const [p, q] = [mean((p) => p), mean((_, q) => q)]
      const variances = mean((p) => p * p) - p * p + mean((_, q) => q * q) - q * q
      found.push((2 * (mean((p, q) => p * q) - p * q) + c) / (variances + c))
    }
  return found.sort((a, b) => a - b)
}
