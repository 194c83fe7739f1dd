import type { Kernels, Memory } from '../memory.ts'
import { withKernels } from '../with-kernels.ts'
import { JOINT, type JointSums, jointSumsOf } from './joint-sums.ts'

/** Cells row by row from the top left: luma 1..255, 0 where there is none. */
export interface ByteGrid {
  readonly columns: number
  readonly rows: number
  readonly luma: Uint8Array
}

/** A grid of floats in the kernels' memory, for as long as the call of {@link withGrids} lasts. */
export interface HeldGrid {
  readonly columns: number
  readonly rows: number
  readonly at: number
}

/** A cell's place in another grid: x' = a x - b y + dx, y' = b x + a y + dy, in cells from the middle of the grid. */
export interface Similarity {
  readonly a: number
  readonly b: number
  readonly dx: number
  readonly dy: number
}

/** How long an alignment is tried, and how far. */
export interface AlignmentLimits {
  readonly rounds: number
  /** The round before which grids that then correlate by less are given up. */
  readonly trial?: { readonly round: number; readonly least: number }
  /** Grids that correlate by less than `least` when a step moves no cell by so much are given up, cells: they come no nearer. */
  readonly settled?: { readonly step: number; readonly least: number }
  /** Farthest movement, cells. */
  readonly shift: number
  /** Farthest distance of a and b from those that stretch and turn nothing. */
  readonly stretch: number
  /** A step that moves no cell farther is the last, cells. */
  readonly still: number
  /** A pivot of the step's equations below this counts as none. */
  readonly singular: number
}

/** The window that places are compared in, weighed across as it is down. */
export interface PlaceWindow {
  /** `2 * reach + 1` weights that add up to 1. */
  readonly weights: Float64Array
  readonly reach: number
}

/** What can be done with grids in the kernels' memory. */
export interface Grids {
  hold(grid: ByteGrid): HeldGrid
  /** A copy of the cells, row by row. */
  cells(grid: HeldGrid): Float32Array
  /** A grid read at moved places, between cells linearly, onto the cells of `onto`; 0 where it or the frame ends. In single precision. */
  moved(grid: HeldGrid, move: Similarity, onto: HeldGrid): HeldGrid
  /** Of two grids of one shape, in double precision. */
  jointSums(a: HeldGrid, b: HeldGrid): JointSums
  /** Correlation of the cells that both of two grids of one shape have; 0 where there are hardly any. In double precision. */
  correlation(a: HeldGrid, b: HeldGrid): number
  /**
   * The move that aligns the second grid with the first: Gauss-Newton on the squared differences, brightness and contrast fitted along
   * with the movement (Lucas and Kanade 1981; forward additive form of Baker and Matthews, IJCV 56(3), 2004). Steps in single precision.
   * Null where one has no solution or leads out of reach, or they are given up.
   */
  align(first: HeldGrid, second: HeldGrid, start: Similarity, limits: AlignmentLimits): Similarity | null
  /** Sum of squared steps to the left and upper neighbors, over the cells whose neighbors both grids have. */
  squaredSteps(grid: HeldGrid, other: HeldGrid): number
  /** Swept across and down by `2 * reach + 1` weights; those of the cells that there are count. */
  blurred(grid: HeldGrid, weights: Float32Array, reach: number): HeldGrid
  /** Mean of the square that reaches `near` cells minus that of the one that reaches `wide`, plus `middle`; 0 where the wide one isn't whole. */
  details(grid: HeldGrid, near: number, wide: number, middle: number): HeldGrid
  /**
   * The likeness of places, (2 covariance + c) / (both variances + c) of the grids times their gains within a window that both have whole:
   * that of which a share of the places have less; null without a place. In double precision.
   */
  placeLikeness(
    grids: readonly [HeldGrid, HeldGrid],
    gains: readonly [number, number],
    window: PlaceWindow,
    c: number,
    share: number,
  ): number | null
}

let shared: Grids | undefined

/** Calls `work` with grids in the kernels' memory; they are gone afterwards. */
export function withGrids<T>(work: (grids: Grids) => T): T {
  return withKernels((kernels, memory) => {
    shared ??= gridsIn(kernels, memory)
    return work(shared)
  })
}

function gridsIn(kernels: Kernels, memory: Memory): Grids {
  const [float, double] = [Float32Array.BYTES_PER_ELEMENT, Float64Array.BYTES_PER_ELEMENT]
  const room = ({ columns, rows }: Pick<HeldGrid, 'columns' | 'rows'>): HeldGrid => ({
    columns,
    rows,
    at: memory.room(float * strideOf(columns) * rows),
  })
  return {
    hold({ columns, rows, luma }) {
      const held = room({ columns, rows })
      kernels.gridOf(memory.put(luma), columns, rows, held.at)
      return held
    },
    cells({ at, columns, rows }) {
      const [stride, out] = [strideOf(columns), new Float32Array(columns * rows)]
      const filled = memory.floats(at, stride * rows)
      return out.map((_, i) => filled[Math.floor(i / columns) * stride + (i % columns)] as number)
    },
    moved(grid, { a, b, dx, dy }, onto) {
      const held = room(onto)
      kernels.moved(grid.at, grid.columns, grid.rows, a, b, dx, dy, held.at, onto.columns, onto.rows)
      return held
    },
    jointSums(a, b) {
      const sums = memory.room(double * JOINT)
      kernels.jointSums(a.at, b.at, strideOf(a.columns) * a.rows, sums)
      return jointSumsOf(memory.doubles(sums, JOINT))
    },
    correlation: (a, b) => kernels.correlation(a.at, b.at, a.columns, a.rows, memory.room(double * JOINT)),
    align(first, second, start, { rounds, trial, settled, shift, stretch, still, singular }) {
      const move = memory.room(double * MOVEMENTS)
      // Written out: this runs millions of times.
      const found = kernels.align(
        first.at,
        first.columns,
        first.rows,
        second.at,
        second.columns,
        second.rows,
        start.a,
        start.b,
        start.dx,
        start.dy,
        rounds,
        trial?.round ?? rounds,
        trial?.least ?? 0,
        settled?.least ?? 0,
        settled?.step ?? 0,
        shift,
        stretch,
        still,
        singular,
        room(first).at,
        memory.room(double * EQUATIONS),
        move,
      )
      return found === 0 ? null : similarityOf(memory.doubles(move, MOVEMENTS))
    },
    squaredSteps: (grid, other) => kernels.squaredSteps(grid.at, other.at, grid.columns, grid.rows),
    blurred(grid, weights, reach) {
      const { columns, rows } = grid
      const line = memory.room(float * (strideOf(columns) + 2 * (reach + VECTOR)))
      const held = room(grid)
      kernels.blurred(grid.at, columns, rows, memory.put(weights), reach, line, room(grid).at, held.at)
      return held
    },
    details(grid, near, wide, middle) {
      const held = room(grid)
      const lines = memory.room(float * (LINES * strideOf(grid.columns) + VECTOR))
      kernels.details(grid.at, grid.columns, grid.rows, near, wide, middle, lines, held.at)
      return held
    },
    placeLikeness([a, b], [gainA, gainB], { weights, reach }, c, share) {
      const { columns, rows } = a
      const across = memory.room(PLANES * double * strideOf(columns) * rows)
      const places = memory.room(double * columns * rows)
      const window = [memory.put(weights), reach, c] as const
      const count = kernels.placesAlike(a.at, b.at, columns, rows, gainA, gainB, ...window, across, places)
      return count === 0 ? null : kernels.ranked(places, count, Math.floor(count * share))
    },
  }
}

function similarityOf(move: Float64Array): Similarity {
  return { a: move[0] as number, b: move[1] as number, dx: move[2] as number, dy: move[3] as number }
}

/** Values of a vector. */
const VECTOR = 4
/** Of a similarity. */
const MOVEMENTS = 4
/** Of six equations, each with what is wanted, and one sum more. */
const EQUATIONS = 6 * 7 + 1
/** Rows of what is summed down columns. */
const LINES = 3
/** Sums of a window's row: both means, both squares, the products, and what is missing. */
const PLANES = 6

/** Floats of a row: filled up with one 0 or more to whole vectors. */
function strideOf(columns: number): number {
  return (columns + VECTOR) & ~(VECTOR - 1)
}
