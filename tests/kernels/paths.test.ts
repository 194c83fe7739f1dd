import { expect, test } from 'vitest'
import { clearestPath } from '../../src/kernels/paths.ts'
import { seeded } from '../random.ts'

/** The definition: of all paths the one that adds up to most. */
function plain(values: Float32Array, columns: number, rows: number, sign: number): number[] {
  const at = (row: number, column: number) => sign * (values[row * columns + column] as number)
  const from = (row: number, column: number): number[][] =>
    column === columns - 1
      ? [[at(row, column)]]
      : [row - 1, row, row + 1]
          .filter((next) => next >= 0 && next < rows)
          .flatMap((next) => from(next, column + 1).map((rest) => [at(row, column), ...rest]))
  const all = Array.from({ length: rows }, (_, row) => from(row, 0)).flat()
  const sum = (path: readonly number[]) => path.reduce((total, value) => total + value, 0)
  return all.reduce((best, path) => (sum(path) > sum(best) ? path : best))
}

test.each([
  [7, 4, 1],
  [7, 4, -1],
  [1, 5, 1],
  [6, 1, -1],
] as const)('through %i columns and %i rows, times %i', (columns, rows, sign) => {
  const next = seeded(columns + rows)
  const values = Float32Array.from({ length: columns * rows }, () => next() - 0.5)
  expect([...clearestPath(values, columns, rows, sign)]).toEqual(plain(values, columns, rows, sign))
})
