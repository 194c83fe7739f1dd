import type { LumaGrid } from './luma-grid.ts'

/** Reach of the square whose mean stays, cells. @choice 3 x 3 cells: compression changes what is finer */
const NEAR = 1
/**
 * Reach of the square whose mean is taken off, cells.
 * @choice 7 x 7 cells, an eye distance and a half: light falls off more slowly
 */
const WIDE = 3
/**
 * Added so that no difference is 0, which stands for a cell outside the frame; a correlation does not see it.
 * @choice above all lumas
 */
const MIDDLE = 1000

/** What is left of a grid without slow changes of brightness and without the finest detail: a difference of two means. */
export function detailOf(grid: LumaGrid): LumaGrid {
  const { columns, rows } = grid
  const out = new Float32Array(columns * rows)
  for (let row = WIDE; row < rows - WIDE; row++) {
    for (let column = WIDE; column < columns - WIDE; column++) {
      const wide = meanAround(grid, row, column, WIDE)
      if (wide === 0) continue
      out[row * columns + column] = MIDDLE + meanAround(grid, row, column, NEAR) - wide
    }
  }
  return { columns, rows, luma: out }
}

/** Mean of a square of cells; 0 when one of them is outside the frame. */
function meanAround({ columns, luma }: LumaGrid, row: number, column: number, reach: number): number {
  let sum = 0
  for (let y = row - reach; y <= row + reach; y++) {
    for (let x = column - reach; x <= column + reach; x++) {
      const value = luma[y * columns + x] as number
      if (value === 0) return 0
      sum += value
    }
  }
  return sum / (2 * reach + 1) ** 2
}
