// Grids of luma: floats, row by row, 0 where there is none. A row is filled up with one 0 or more to whole vectors, so that the cells
// beside it count as none.
import { lanes } from '../one-to-many'

/** Floats of a row. */
export function strideOf(columns: i32): i32 {
  return (columns + 4) & ~3
}

/** A grid of bytes as floats. */
export function gridOf(bytes: usize, columns: i32, rows: i32, out: usize): void {
  const stride = strideOf(columns)
  for (let row = 0; row < rows; row++, bytes += columns) {
    for (let column = 0; column < stride; column += 4, out += 16) {
      const four = i16x8.extend_low_i8x16_u(v128.load32_zero(bytes + column))
      v128.store(out, f32x4.convert_i32x4_u(i32x4.extend_low_i16x8_u(four)))
    }
    clear(out, stride - columns)
  }
}

/** Makes the last cells before an address none. */
function clear(end: usize, cells: i32): void {
  for (let k = 1; k <= cells; k++) store<f32>(end - (<usize>k << 2), 0)
}

/**
 * A grid read at the places a x - b y + dx, b x + a y + dy, in cells from the middles of both grids, between cells linearly; 0 where it ends.
 */
export function moved(
  grid: usize,
  gridColumns: i32,
  gridRows: i32,
  a: f64,
  b: f64,
  dx: f64,
  dy: f64,
  out: usize,
  columns: i32,
  rows: i32,
): void {
  const stride = strideOf(columns)
  const gridStride = strideOf(gridColumns)
  const line = <usize>gridStride << 2
  const lastX = f32x4.splat(<f32>(gridColumns - 1))
  const lastY = f32x4.splat(<f32>(gridRows - 1))
  // The cells to the right and below are read along with one.
  const leastX = f32x4.sub(lastX, f32x4.splat(1))
  const leastY = f32x4.sub(lastY, f32x4.splat(1))
  const none = f32x4.splat(0)
  const stepX = f32x4.splat(<f32>a)
  const stepY = f32x4.splat(<f32>b)
  const left = -<f64>(columns - 1) / 2
  const fromX = <f64>(gridColumns - 1) / 2 + dx + a * left
  const fromY = <f64>(gridRows - 1) / 2 + dy + b * left
  for (let row = 0; row < rows; row++) {
    const down = <f64>row - <f64>(rows - 1) / 2
    const firstX = f32x4.splat(<f32>(fromX - b * down))
    const firstY = f32x4.splat(<f32>(fromY + a * down))
    for (let column = 0; column < stride; column += 4, out += 16) {
      const steps = f32x4.add(f32x4.splat(<f32>column), f32x4(0, 1, 2, 3))
      const x = f32x4.add(firstX, f32x4.mul(steps, stepX))
      const y = f32x4.add(firstY, f32x4.mul(steps, stepY))
      const inX = v128.and(f32x4.ge(x, none), f32x4.lt(x, lastX))
      const inY = v128.and(f32x4.ge(y, none), f32x4.lt(y, lastY))
      const cellX = f32x4.pmax(none, f32x4.pmin(leastX, f32x4.floor(x)))
      const cellY = f32x4.pmax(none, f32x4.pmin(leastY, f32x4.floor(y)))
      const cell = wholeOf(f32x4.add(f32x4.mul(cellY, f32x4.splat(<f32>gridStride)), cellX))
      const at = i32x4.add(i32x4.shl(cell, 2), i32x4.splat(<i32>grid))
      const at0 = <usize>i32x4.extract_lane(at, 0)
      const at1 = <usize>i32x4.extract_lane(at, 1)
      const at2 = <usize>i32x4.extract_lane(at, 2)
      const at3 = <usize>i32x4.extract_lane(at, 3)
      const upper01 = v128.load64_lane(at1, v128.load64_zero(at0), 1)
      const upper23 = v128.load64_lane(at3, v128.load64_zero(at2), 1)
      const lower01 = v128.load64_lane(at1 + line, v128.load64_zero(at0 + line), 1)
      const lower23 = v128.load64_lane(at3 + line, v128.load64_zero(at2 + line), 1)
      const p = v128.shuffle<f32>(upper01, upper23, 0, 2, 4, 6)
      const q = v128.shuffle<f32>(upper01, upper23, 1, 3, 5, 7)
      const r = v128.shuffle<f32>(lower01, lower23, 0, 2, 4, 6)
      const s = v128.shuffle<f32>(lower01, lower23, 1, 3, 5, 7)
      const right = f32x4.sub(x, cellX)
      const upper = f32x4.add(p, f32x4.mul(f32x4.sub(q, p), right))
      const lower = f32x4.add(r, f32x4.mul(f32x4.sub(s, r), right))
      const value = f32x4.add(upper, f32x4.mul(f32x4.sub(lower, upper), f32x4.sub(y, cellY)))
      const there = f32x4.gt(f32x4.pmin(f32x4.pmin(p, q), f32x4.pmin(r, s)), none)
      const inRow = f32x4.lt(steps, f32x4.splat(<f32>columns))
      v128.store(out, v128.and(v128.and(value, there), v128.and(v128.and(inX, inY), inRow)))
    }
  }
}

/** Four floats that are whole and 0..2^23 as such: the last bits of the sum with 2^23. */
function wholeOf(four: v128): v128 {
  return v128.and(f32x4.add(four, f32x4.splat(8388608)), i32x4.splat(0x7fffff))
}

/**
 * Over the cells that both grids have, six sums in double precision: how many, of the first, of the second, their squares, and the products.
 * @param cells those of all rows, filled up
 */
export function jointSums(first: usize, second: usize, cells: i32, out: usize): void {
  const none = f64x2.splat(0)
  let count = none
  let sumA = none
  let sumB = none
  let squaresA = none
  let squaresB = none
  let products = none
  for (let i = 0; i < cells; i += 2, first += 8, second += 8) {
    let a = f64x2.promote_low_f32x4(v128.load64_zero(first))
    let b = f64x2.promote_low_f32x4(v128.load64_zero(second))
    const both = v128.and(f64x2.gt(a, none), f64x2.gt(b, none))
    a = v128.and(a, both)
    b = v128.and(b, both)
    count = f64x2.add(count, v128.and(both, f64x2.splat(1)))
    sumA = f64x2.add(sumA, a)
    sumB = f64x2.add(sumB, b)
    squaresA = f64x2.add(squaresA, f64x2.mul(a, a))
    squaresB = f64x2.add(squaresB, f64x2.mul(b, b))
    products = f64x2.add(products, f64x2.mul(a, b))
  }
  store<f64>(out, total(count))
  store<f64>(out, total(sumA), 8)
  store<f64>(out, total(sumB), 16)
  store<f64>(out, total(squaresA), 24)
  store<f64>(out, total(squaresB), 32)
  store<f64>(out, total(products), 40)
}

function total(two: v128): f64 {
  return f64x2.extract_lane(two, 0) + f64x2.extract_lane(two, 1)
}

/** Product of two standard deviations below which there is nothing to correlate: far below one code in one cell. */
const FLAT: f64 = 1e-6

/** Correlation over the cells that both grids have, by sums that need room for six doubles; 0 where there are hardly any. */
export function correlation(first: usize, second: usize, columns: i32, rows: i32, sums: usize): f64 {
  jointSums(first, second, strideOf(columns) * rows, sums)
  const n = load<f64>(sums)
  if (n < 2) return 0
  const meanA = load<f64>(sums, 8) / n
  const meanB = load<f64>(sums, 16) / n
  const varianceA = max(0, load<f64>(sums, 24) / n - meanA * meanA)
  const varianceB = max(0, load<f64>(sums, 32) / n - meanB * meanB)
  const both = Math.sqrt(varianceA) * Math.sqrt(varianceB)
  return both < FLAT ? 0 : (load<f64>(sums, 40) / n - meanA * meanB) / both
}

/** The same of grids of bytes as they are, of 33,000 cells at most, whose squares a whole number of 32 bits holds; exact. */
export function jointByteSums(first: usize, second: usize, cells: i32, out: usize): void {
  const none = i32x4.splat(0)
  let count = none
  let sumA = none
  let sumB = none
  let squaresA = none
  let squaresB = none
  let products = none
  for (let i = 0; i < cells; i += 8) {
    let a = v128.load64_zero(first + i)
    let b = v128.load64_zero(second + i)
    let both = v128.and(i8x16.ne(a, none), i8x16.ne(b, none))
    if (cells - i < 8) both = v128.and(both, i64x2(((<i64>1) << ((cells - i) << 3)) - 1, 0))
    a = i16x8.extend_low_i8x16_u(v128.and(a, both))
    b = i16x8.extend_low_i8x16_u(v128.and(b, both))
    count = i32x4.sub(count, i32x4.extadd_pairwise_i16x8_s(i16x8.extend_low_i8x16_s(both)))
    sumA = i32x4.add(sumA, i32x4.extadd_pairwise_i16x8_u(a))
    sumB = i32x4.add(sumB, i32x4.extadd_pairwise_i16x8_u(b))
    squaresA = i32x4.add(squaresA, i32x4.dot_i16x8_s(a, a))
    squaresB = i32x4.add(squaresB, i32x4.dot_i16x8_s(b, b))
    products = i32x4.add(products, i32x4.dot_i16x8_s(a, b))
  }
  store<f64>(out, <f64>lanes(count))
  store<f64>(out, <f64>lanes(sumA), 8)
  store<f64>(out, <f64>lanes(sumB), 16)
  store<f64>(out, <f64>lanes(squaresA), 24)
  store<f64>(out, <f64>lanes(squaresB), 32)
  store<f64>(out, <f64>lanes(products), 40)
}
