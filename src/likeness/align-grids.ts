import { mirrorUpper, solveSystem } from '../numbers/linear-system.ts'
import { correlation } from './grid-likeness.ts'
import { IDENTITY, type LumaGrid, moved, type Similarity } from './luma-grid.ts'

/** Unknowns of an alignment. @choice definition: the four of a similarity, and brightness and contrast. */
const UNKNOWNS = 6
/** How long an alignment is tried. */
export interface Patience {
  readonly rounds: number
  /** The round by which copies have come near: what then correlates by less than `least` is another picture. */
  readonly trial: number
  readonly least: number
}

/**
 * How long an alignment is tried unless told.
 * @tuned on pairs of different people, which are given up early, and on copies, of which none is.
 */
const PATIENT: Patience = { rounds: 12, trial: 4, least: 0.75 }

/** A step smaller than this changes nothing any more, share of a cell. @choice no source: a hundredth of a cell moves no correlation. */
const STILL = 0.01

/** Pivot below which a step has no solution. @choice far below the squares of any slope in codes, no source. */
const SINGULAR = 1e-9

/** The largest movement that is plausible: in cells, and as a share of the size. */
export interface Reach {
  readonly shift: number
  readonly stretch: number
}

/**
 * The move that aligns the second grid with the first: Gauss-Newton on the squared differences,
 * brightness and contrast fitted along with the movement (Lucas and Kanade 1981; forward additive form of Baker and
 * Matthews, IJCV 56(3), 2004). Null when the best one lies out of reach or makes them no more alike.
 */
export function alignment(
  first: LumaGrid,
  second: LumaGrid,
  reach: Reach,
  start: Similarity = IDENTITY,
  { rounds, trial, least }: Patience = PATIENT,
): Similarity | null {
  let move = start
  for (let round = 0; round < rounds; round++) {
    const aligned = moved(second, move, first)
    if (round === trial && correlation(first, aligned) < least) return null
    const step = stepTowards(first, aligned)
    if (!step) return null
    move = {
      a: move.a + step.a,
      b: move.b + step.b,
      dx: move.dx + step.dx,
      dy: move.dy + step.dy,
    }
    if (Math.hypot(move.dx, move.dy) > reach.shift || Math.hypot(move.a - 1, move.b) > reach.stretch)
      return null
    const half = first.rows / 2
    if (Math.hypot(step.dx, step.dy) + half * Math.hypot(step.a, step.b) < STILL) break
  }
  return move
}

function stepTowards(first: LumaGrid, now: LumaGrid): Similarity | null {
  const m = normalEquations(first, now)
  mirrorUpper(m, UNKNOWNS)
  const solved = solveSystem(m, UNKNOWNS, SINGULAR)
  if (!solved) return null
  const [a, b, dx, dy] = [...solved] as [number, number, number, number]
  return { a, b, dx, dy }
}

/**
 * The upper half of the sums of products of the factors of the unknowns (a, b, dx, dy, contrast, brightness) and, as last
 * column, with what is wanted. Written out: most of the time goes here.
 */
function normalEquations({ columns, rows, luma }: LumaGrid, { luma: now }: LumaGrid): Float64Array {
  // One declaration each: taken from a list they would not be kept as plain numbers, which is three times as slow.
  let m00 = 0
  let m01 = 0
  let m02 = 0
  let m03 = 0
  let m04 = 0
  let m05 = 0
  let m06 = 0
  let m11 = 0
  let m12 = 0
  let m13 = 0
  let m14 = 0
  let m15 = 0
  let m16 = 0
  let m22 = 0
  let m23 = 0
  let m24 = 0
  let m25 = 0
  let m26 = 0
  let m33 = 0
  let m34 = 0
  let m35 = 0
  let m36 = 0
  let m44 = 0
  let m45 = 0
  let m46 = 0
  let m55 = 0
  let m56 = 0
  const midX = (columns - 1) / 2
  const midY = (rows - 1) / 2
  for (let row = 1; row < rows - 1; row++) {
    for (let column = 1; column < columns - 1; column++) {
      const at = row * columns + column
      const value = now[at] as number
      const wanted = luma[at] as number
      const left = now[at - 1] as number
      const right = now[at + 1] as number
      const above = now[at - columns] as number
      const below = now[at + columns] as number
      if (value === 0 || wanted === 0 || left === 0 || right === 0 || above === 0 || below === 0) continue
      const gx = (right - left) / 2
      const gy = (below - above) / 2
      const x = column - midX
      const y = row - midY
      const stretch = gx * x + gy * y
      const turn = gy * x - gx * y
      const off = wanted - value
      m00 += stretch * stretch
      m01 += stretch * turn
      m02 += stretch * gx
      m03 += stretch * gy
      m04 += stretch * value
      m05 += stretch
      m06 += stretch * off
      m11 += turn * turn
      m12 += turn * gx
      m13 += turn * gy
      m14 += turn * value
      m15 += turn
      m16 += turn * off
      m22 += gx * gx
      m23 += gx * gy
      m24 += gx * value
      m25 += gx
      m26 += gx * off
      m33 += gy * gy
      m34 += gy * value
      m35 += gy
      m36 += gy * off
      m44 += value * value
      m45 += value
      m46 += value * off
      m55 += 1
      m56 += off
    }
  }
  // biome-ignore format: the rows of the matrix.
  return Float64Array.of(
    m00, m01, m02, m03, m04, m05, m06,
    0, m11, m12, m13, m14, m15, m16,
    0, 0, m22, m23, m24, m25, m26,
    0, 0, 0, m33, m34, m35, m36,
    0, 0, 0, 0, m44, m45, m46,
    0, 0, 0, 0, 0, m55, m56,
  )
}
