import type { Grids, HeldGrid } from '../kernels/grids/grids.ts'

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
export function detailOf(grids: Grids, grid: HeldGrid): HeldGrid {
  return grids.details(grid, NEAR, WIDE, MIDDLE)
}
