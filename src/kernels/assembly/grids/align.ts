// Two grids aligned (see grids.ts).
import { likenessOf, normalEquations, solve, unknown } from './equations'
import { correlation, moved } from './grids'

/**
 * The movement that aligns the second grid with the first, by steps from where it stands at first.
 * @param a with b, dx and dy where it stands at first, as `moved` takes them
 * @param trial the round before which grids that correlate by less than `least` are given up
 * @param near grids that correlate by less are given up as soon as a step moves no cell by `settled`
 * @param still a step that moves no cell by more is the last
 * @param singular a pivot below this counts as none
 * @param aligned room for a grid like the first
 * @param equations room for six rows of seven doubles and one more
 * @param move room for four doubles: the movement
 * @returns 0 where a step has no solution or leads beyond `shift` cells or `stretch`
 */
export function align(
  first: usize,
  columns: i32,
  rows: i32,
  second: usize,
  secondColumns: i32,
  secondRows: i32,
  a: f64,
  b: f64,
  dx: f64,
  dy: f64,
  rounds: i32,
  trial: i32,
  least: f64,
  near: f64,
  settled: f64,
  shift: f64,
  stretch: f64,
  still: f64,
  singular: f64,
  aligned: usize,
  equations: usize,
  move: usize,
): i32 {
  for (let round = 0; round < rounds; round++) {
    moved(second, secondColumns, secondRows, a, b, dx, dy, aligned, columns, rows)
    if (round == trial && correlation(first, aligned, columns, rows, equations) < least) return 0
    normalEquations(first, aligned, columns, rows, equations)
    const isNear = likenessOf(equations) >= near
    if (!solve(equations, singular)) return 0
    const stepA = unknown(equations, 0)
    const stepB = unknown(equations, 1)
    const stepX = unknown(equations, 2)
    const stepY = unknown(equations, 3)
    a += stepA
    b += stepB
    dx += stepX
    dy += stepY
    if (length(dx, dy) > shift || length(a - 1, b) > stretch) return 0
    const step = length(stepX, stepY) + (<f64>rows / 2) * length(stepA, stepB)
    if (step < settled && !isNear) return 0
    if (step < still) break
  }
  store<f64>(move, a)
  store<f64>(move, b, 8)
  store<f64>(move, dx, 16)
  store<f64>(move, dy, 24)
  return 1
}

function length(x: f64, y: f64): f64 {
  return Math.sqrt(x * x + y * y)
}
