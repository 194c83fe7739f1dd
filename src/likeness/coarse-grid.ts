import { type ByteGrid, withGrids } from '../kernels/grids/grids.ts'
import { halved, mirrored } from './luma-grid.ts'
import type { Way } from './ready-signature.ts'

/** Cells of a grid, one after the other, to be held against those of thousands of others; 0 for none. */
type CellList = Readonly<Record<Way, Int16Array>>

/** A grid at half its resolution: its cells, and what is left of them without slow changes of brightness. */
export interface CoarseGrid {
  readonly luma: CellList
  readonly detail: CellList
}

/** Reach of the square whose mean is taken off, cells. @choice 5 x 5 cells of twice the size: about that of `detail-grid.ts` */
const WIDE = 2
/** Added so that no difference of lumas is 0, which stands for none. @choice above all differences */
const MIDDLE = 256
/** Steps that a code is kept in. @choice all differences stay below the 1023 of {@link correlationsWith} */
const STEPS = 2

export function coarseGrid(grid: ByteGrid): CoarseGrid {
  const plain = halved(grid)
  const mirror = mirrored(plain)
  return {
    luma: { plain: Int16Array.from(plain.luma), mirror: Int16Array.from(mirror.luma) },
    detail: { plain: detailsOf(plain), mirror: detailsOf(mirror) },
  }
}

function detailsOf(grid: ByteGrid): Int16Array {
  return withGrids((grids) => {
    const cells = grids.cells(grids.details(grids.hold(grid), 0, WIDE, MIDDLE))
    return Int16Array.from(cells, (value) => Math.round(STEPS * value))
  })
}
