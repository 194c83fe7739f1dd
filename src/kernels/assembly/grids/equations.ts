// The equations of a step that aligns two grids (see grids.ts).
import { strideOf } from './grids'

const UNKNOWNS = 6
const WIDTH = UNKNOWNS + 1
/** Where the sum of the squares of what is wanted stands: behind the equations. */
const REST = UNKNOWNS * WIDTH

/** Middle of all lumas. Brightness is fitted along, so that it may be taken off: the sums stay small enough for floats. */
const MIDDLE: f32 = 128

/**
 * The upper half of the normal equations: six rows of seven sums, of products of the factors of a, b, dx, dy, contrast and brightness, and with
 * what is wanted; behind them the sum of its squares.
 */
export function normalEquations(first: usize, now: usize, columns: i32, rows: i32, out: usize): void {
  const stride = strideOf(columns)
  const line = <usize>stride << 2
  const none = f32x4.splat(0)
  const half = f32x4.splat(0.5)
  const middle = f32x4.splat(MIDDLE)
  let m00 = none
  let m01 = none
  let m02 = none
  let m03 = none
  let m04 = none
  let m05 = none
  let m06 = none
  let m11 = none
  let m12 = none
  let m13 = none
  let m14 = none
  let m15 = none
  let m16 = none
  let m22 = none
  let m23 = none
  let m24 = none
  let m25 = none
  let m26 = none
  let m33 = none
  let m34 = none
  let m35 = none
  let m36 = none
  let m44 = none
  let m45 = none
  let m46 = none
  let m55 = none
  let m56 = none
  let m66 = none
  for (let row = 1; row < rows - 1; row++) {
    const y = f32x4.splat(<f32>row - <f32>(rows - 1) / 2)
    let at = <usize>(row * stride) << 2
    for (let column = 0; column < stride; column += 4, at += 16) {
      const here = v128.load(now + at)
      const wanted = v128.load(first + at)
      const left = v128.load(now + at - 4)
      const right = v128.load(now + at + 4)
      const above = v128.load(now + at - line)
      const below = v128.load(now + at + line)
      const least = f32x4.pmin(f32x4.pmin(here, wanted), f32x4.pmin(f32x4.pmin(left, right), f32x4.pmin(above, below)))
      const there = f32x4.gt(least, none)
      if (!v128.any_true(there)) continue
      const gx = v128.and(there, f32x4.mul(f32x4.sub(right, left), half))
      const gy = v128.and(there, f32x4.mul(f32x4.sub(below, above), half))
      const x = f32x4.add(f32x4.splat(<f32>column - <f32>(columns - 1) / 2), f32x4(0, 1, 2, 3))
      const stretch = f32x4.add(f32x4.mul(gx, x), f32x4.mul(gy, y))
      const turn = f32x4.sub(f32x4.mul(gy, x), f32x4.mul(gx, y))
      const value = v128.and(there, f32x4.sub(here, middle))
      const one = v128.and(there, f32x4.splat(1))
      const off = v128.and(there, f32x4.sub(wanted, here))
      m00 = f32x4.add(m00, f32x4.mul(stretch, stretch))
      m01 = f32x4.add(m01, f32x4.mul(stretch, turn))
      m02 = f32x4.add(m02, f32x4.mul(stretch, gx))
      m03 = f32x4.add(m03, f32x4.mul(stretch, gy))
      m04 = f32x4.add(m04, f32x4.mul(stretch, value))
      m05 = f32x4.add(m05, stretch)
      m06 = f32x4.add(m06, f32x4.mul(stretch, off))
      m11 = f32x4.add(m11, f32x4.mul(turn, turn))
      m12 = f32x4.add(m12, f32x4.mul(turn, gx))
      m13 = f32x4.add(m13, f32x4.mul(turn, gy))
      m14 = f32x4.add(m14, f32x4.mul(turn, value))
      m15 = f32x4.add(m15, turn)
      m16 = f32x4.add(m16, f32x4.mul(turn, off))
      m22 = f32x4.add(m22, f32x4.mul(gx, gx))
      m23 = f32x4.add(m23, f32x4.mul(gx, gy))
      m24 = f32x4.add(m24, f32x4.mul(gx, value))
      m25 = f32x4.add(m25, gx)
      m26 = f32x4.add(m26, f32x4.mul(gx, off))
      m33 = f32x4.add(m33, f32x4.mul(gy, gy))
      m34 = f32x4.add(m34, f32x4.mul(gy, value))
      m35 = f32x4.add(m35, gy)
      m36 = f32x4.add(m36, f32x4.mul(gy, off))
      m44 = f32x4.add(m44, f32x4.mul(value, value))
      m45 = f32x4.add(m45, value)
      m46 = f32x4.add(m46, f32x4.mul(value, off))
      m55 = f32x4.add(m55, one)
      m56 = f32x4.add(m56, off)
      m66 = f32x4.add(m66, f32x4.mul(off, off))
    }
  }
  store<f64>(out, sumOf(m00), 0)
  store<f64>(out, sumOf(m01), 8)
  store<f64>(out, sumOf(m02), 16)
  store<f64>(out, sumOf(m03), 24)
  store<f64>(out, sumOf(m04), 32)
  store<f64>(out, sumOf(m05), 40)
  store<f64>(out, sumOf(m06), 48)
  store<f64>(out, sumOf(m11), 64)
  store<f64>(out, sumOf(m12), 72)
  store<f64>(out, sumOf(m13), 80)
  store<f64>(out, sumOf(m14), 88)
  store<f64>(out, sumOf(m15), 96)
  store<f64>(out, sumOf(m16), 104)
  store<f64>(out, sumOf(m22), 128)
  store<f64>(out, sumOf(m23), 136)
  store<f64>(out, sumOf(m24), 144)
  store<f64>(out, sumOf(m25), 152)
  store<f64>(out, sumOf(m26), 160)
  store<f64>(out, sumOf(m33), 192)
  store<f64>(out, sumOf(m34), 200)
  store<f64>(out, sumOf(m35), 208)
  store<f64>(out, sumOf(m36), 216)
  store<f64>(out, sumOf(m44), 256)
  store<f64>(out, sumOf(m45), 264)
  store<f64>(out, sumOf(m46), 272)
  store<f64>(out, sumOf(m55), 320)
  store<f64>(out, sumOf(m56), 328)
  store<f64>(out, sumOf(m66), REST << 3)
}

/** Correlation over the cells that the equations are of; 0 where one grid is even. */
export function likenessOf(equations: usize): f64 {
  const n = load<f64>(equations + placeOf(5, 5))
  const sum = load<f64>(equations + placeOf(4, 5))
  const squares = load<f64>(equations + placeOf(4, 4))
  const more = load<f64>(equations + placeOf(4, 6))
  const wanted = sum + load<f64>(equations + placeOf(5, 6))
  const wantedSquares = squares + 2 * more + load<f64>(equations, REST << 3)
  const both = (n * squares - sum * sum) * (n * wantedSquares - wanted * wanted)
  return both > 0 ? (n * (squares + more) - sum * wanted) / Math.sqrt(both) : 0
}

function sumOf(four: v128): f64 {
  const low = f64x2.promote_low_f32x4(four)
  const high = f64x2.promote_low_f32x4(v128.shuffle<f32>(four, four, 2, 3, 2, 3))
  const two = f64x2.add(low, high)
  return f64x2.extract_lane(two, 0) + f64x2.extract_lane(two, 1)
}

function placeOf(row: i32, column: i32): usize {
  return <usize>(row * WIDTH + column) << 3
}

/** Of solved equations. */
export function unknown(equations: usize, row: i32): f64 {
  return load<f64>(equations + placeOf(row, UNKNOWNS)) / load<f64>(equations + placeOf(row, row))
}

/** Gauss-Jordan elimination with partial pivoting of equations of which the upper half is given. */
export function solve(equations: usize, least: f64): bool {
  for (let row = 1; row < UNKNOWNS; row++)
    for (let column = 0; column < row; column++)
      store<f64>(equations + placeOf(row, column), load<f64>(equations + placeOf(column, row)))
  for (let column = 0; column < UNKNOWNS; column++) {
    let pivot = column
    for (let row = column + 1; row < UNKNOWNS; row++)
      if (sizeAt(equations, row, column) > sizeAt(equations, pivot, column)) pivot = row
    if (!(sizeAt(equations, pivot, column) >= least)) return false
    for (let k = column; k < WIDTH; k++) {
      const held = load<f64>(equations + placeOf(column, k))
      store<f64>(equations + placeOf(column, k), load<f64>(equations + placeOf(pivot, k)))
      store<f64>(equations + placeOf(pivot, k), held)
    }
    for (let row = 0; row < UNKNOWNS; row++) {
      if (row == column) continue
      const factor = load<f64>(equations + placeOf(row, column)) / load<f64>(equations + placeOf(column, column))
      for (let k = column; k < WIDTH; k++) {
        const at = equations + placeOf(row, k)
        store<f64>(at, load<f64>(at) - factor * load<f64>(equations + placeOf(column, k)))
      }
    }
  }
  return true
}

function sizeAt(equations: usize, row: i32, column: i32): f64 {
  return Math.abs(load<f64>(equations + placeOf(row, column)))
}
