import { correlation } from './grid-likeness.ts'
import { IDENTITY, type LumaGrid, moved, type Similarity } from './luma-grid.ts'

const ROUNDS = 12
// Copies come near within a few rounds; what then is still unlike is another picture, as most pairs are.
const TRIAL = 4
const HOPELESS = 0.75
// A step smaller than this share of a cell changes nothing any more.
const STILL = 0.01

/** The largest movement that is plausible: in cells, and as a share of the size. */
export interface Reach {
  readonly shift: number
  readonly stretch: number
}

/**
 * How the second grid has to be moved to lie on the first: Gauss-Newton on the squared differences, brightness and contrast fitted along with the movement (Lucas and
 * Kanade 1981; forward additive form of Baker and Matthews, IJCV 56(3), 2004). Null when the best
 * one lies out of reach or makes them no more alike.
 */
export function alignment(
  first: LumaGrid,
  second: LumaGrid,
  reach: Reach,
  start: Similarity = IDENTITY,
): Similarity | null {
  let move = start
  for (let round = 0; round < ROUNDS; round++) {
    const laid = moved(second, move, first)
    if (round === TRIAL && correlation(first, laid) < HOPELESS) return null
    const step = stepTowards(first, laid)
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

// Unknowns of the least squares: a, b, dx, dy, contrast, brightness.
const UNKNOWNS = 6

function stepTowards({ columns, rows, luma }: LumaGrid, now: LumaGrid): Similarity | null {
  const normal = Array.from({ length: UNKNOWNS }, () => new Float64Array(UNKNOWNS + 1))
  const midX = (columns - 1) / 2
  const midY = (rows - 1) / 2
  for (let row = 1; row < rows - 1; row++) {
    for (let column = 1; column < columns - 1; column++) {
      const at = row * columns + column
      const value = now.luma[at] as number
      const wanted = luma[at] as number
      const left = now.luma[at - 1] as number
      const right = now.luma[at + 1] as number
      const above = now.luma[at - columns] as number
      const below = now.luma[at + columns] as number
      if (value === 0 || wanted === 0 || left === 0 || right === 0 || above === 0 || below === 0) continue
      const gx = (right - left) / 2
      const gy = (below - above) / 2
      const x = column - midX
      const y = row - midY
      addRow(normal, [gx * x + gy * y, gy * x - gx * y, gx, gy, value, 1], wanted - value)
    }
  }
  const solved = solve(normal)
  if (!solved) return null
  const [a, b, dx, dy] = solved as [number, number, number, number]
  return { a, b, dx, dy }
}

function addRow(normal: Float64Array[], row: readonly number[], target: number): void {
  for (const [i, p] of row.entries()) {
    const line = normal[i] as Float64Array
    for (const [j, q] of row.entries()) line[j] = (line[j] as number) + p * q
    line[UNKNOWNS] = (line[UNKNOWNS] as number) + p * target
  }
}

/** Gaussian elimination with partial pivoting; null when the equations have no one solution. */
function solve(lines: Float64Array[]): number[] | null {
  const n = lines.length
  for (let i = 0; i < n; i++) {
    let best = i
    for (let k = i + 1; k < n; k++) if (Math.abs(at(lines, k, i)) > Math.abs(at(lines, best, i))) best = k
    if (Math.abs(at(lines, best, i)) < 1e-9) return null
    ;[lines[i], lines[best]] = [lines[best] as Float64Array, lines[i] as Float64Array]
    for (let k = 0; k < n; k++) {
      if (k === i) continue
      const factor = at(lines, k, i) / at(lines, i, i)
      const line = lines[k] as Float64Array
      for (let j = i; j <= n; j++) line[j] = (line[j] as number) - factor * at(lines, i, j)
    }
  }
  return lines.map((line, i) => (line[n] as number) / (line[i] as number))
}

function at(lines: readonly Float64Array[], row: number, column: number): number {
  return lines[row]?.[column] as number
}
