// How alike two grids are place by place (see grids.ts).
import { strideOf } from './grids'

/** The sum of squared steps to the left and upper neighbors, over the cells whose neighbors both grids have. */
export function squaredSteps(grid: usize, other: usize, columns: i32, rows: i32): f64 {
  const stride = strideOf(columns)
  const line = <usize>stride << 2
  const none = f32x4.splat(0)
  let sum: f64 = 0
  for (let row = 1; row < rows; row++) {
    let at = <usize>(row * stride) << 2
    let squares = none
    for (let column = 0; column < stride; column += 4, at += 16) {
      const here = v128.load(grid + at)
      const left = v128.load(grid + at - 4)
      const above = v128.load(grid + at - line)
      const least = f32x4.pmin(f32x4.pmin(here, v128.load(other + at)), f32x4.pmin(left, above))
      const across = f32x4.sub(here, left)
      const down = f32x4.sub(here, above)
      const both = f32x4.add(f32x4.mul(across, across), f32x4.mul(down, down))
      squares = f32x4.add(squares, v128.and(both, f32x4.gt(least, none)))
    }
    sum +=
      <f64>f32x4.extract_lane(squares, 0) +
      <f64>f32x4.extract_lane(squares, 1) +
      <f64>f32x4.extract_lane(squares, 2) +
      <f64>f32x4.extract_lane(squares, 3)
  }
  return sum
}

/**
 * A grid swept by weights, those of the cells that there are adding up to 1; where there is none stays none.
 * @param weights `2 * reach + 1` floats
 * @param line room for a row, with `reach` floats before and behind it and as much again as for a vector
 */
export function blurred(
  grid: usize,
  columns: i32,
  rows: i32,
  weights: usize,
  reach: i32,
  line: usize,
  between: usize,
  out: usize,
): void {
  const stride = strideOf(columns)
  const margin = (reach + 3) & ~3
  memory.fill(line, 0, <usize>(stride + 2 * margin) << 2)
  for (let row = 0; row < rows; row++) {
    const at = <usize>(row * stride) << 2
    memory.copy(line + (<usize>margin << 2), grid + at, <usize>stride << 2)
    for (let column = 0; column < stride; column += 4) {
      const from = line + (<usize>(margin + column) << 2)
      v128.store(between + at + (<usize>column << 2), weighed(from, 4, weights, -reach, reach))
    }
  }
  for (let row = 0; row < rows; row++) {
    const least = max(-reach, -row)
    const most = min(reach, rows - 1 - row)
    for (let column = 0; column < stride; column += 4) {
      const at = <usize>(row * stride + column) << 2
      v128.store(out + at, weighed(between + at, stride << 2, weights + (<usize>(least + reach) << 2), least, most))
    }
  }
}

/** Four cells, each the weighted mean of those that there are at so many steps from it. */
function weighed(at: usize, step: i32, weights: usize, least: i32, most: i32): v128 {
  const none = f32x4.splat(0)
  let sum = none
  let total = none
  for (let k = least; k <= most; k++, weights += 4) {
    const value = v128.load(<usize>(<i32>at + k * step))
    const weight = v128.load32_splat(weights)
    sum = f32x4.add(sum, f32x4.mul(weight, value))
    total = f32x4.add(total, v128.and(weight, f32x4.gt(value, none)))
  }
  return v128.and(f32x4.div(sum, total), f32x4.gt(v128.load(at), none))
}

/**
 * For each place whose whole window both grids have, 2 covariance + c over the sum of the variances + c, in double precision and within a window
 * that is weighed across as it is down.
 * @param weights `2 * reach + 1` doubles that add up to 1
 * @param sums room for six doubles of each cell of a row of places
 * @returns how many places
 */
export function placesAlike(
  first: usize,
  second: usize,
  columns: i32,
  rows: i32,
  gainA: f64,
  gainB: f64,
  weights: usize,
  reach: i32,
  c: f64,
  across: usize,
  out: usize,
): i32 {
  if (columns <= 2 * reach || rows <= 2 * reach) return 0
  const stride = strideOf(columns)
  const width = <usize>((columns - 2 * reach + 1) & ~1) << 3
  const plane = width * <usize>rows
  for (let row = 0; row < rows; row++)
    sweep(
      first + (<usize>(row * stride) << 2),
      second + (<usize>(row * stride) << 2),
      gainA, gainB, weights, reach, across + <usize>row * width, width, plane,
    )
  let count = 0
  for (let row = 0; row < rows - 2 * reach; row++) {
    for (let column = 0; column < columns - 2 * reach; column += 2) {
      const at = across + <usize>row * width + (<usize>column << 3)
      const missing = down(at + 5 * plane, width, weights, reach)
      const meanA = down(at, width, weights, reach)
      const meanB = down(at + plane, width, weights, reach)
      const varianceA = f64x2.sub(down(at + 2 * plane, width, weights, reach), f64x2.mul(meanA, meanA))
      const varianceB = f64x2.sub(down(at + 3 * plane, width, weights, reach), f64x2.mul(meanB, meanB))
      const covariance = f64x2.sub(down(at + 4 * plane, width, weights, reach), f64x2.mul(meanA, meanB))
      const alike = f64x2.div(
        f64x2.add(f64x2.add(covariance, covariance), f64x2.splat(c)),
        f64x2.add(f64x2.add(varianceA, varianceB), f64x2.splat(c)),
      )
      for (let lane = 0; lane < 2; lane++) {
        const lacks = lane == 0 ? f64x2.extract_lane(missing, 0) : f64x2.extract_lane(missing, 1)
        if (lacks > 0 || column + lane >= columns - 2 * reach) continue
        store<f64>(out, lane == 0 ? f64x2.extract_lane(alike, 0) : f64x2.extract_lane(alike, 1))
        out += 8
        count++
      }
    }
  }
  return count
}

/** Of a row: means within the window of both grids, of their squares, of their product, and the weight of the cells that one lacks. */
function sweep(
  first: usize, second: usize, gainA: f64, gainB: f64, weights: usize, reach: i32, out: usize, width: usize, plane: usize,
): void {
  const none = f64x2.splat(0)
  for (let at: usize = 0; at < width; at += 16) {
    let meanA = none
    let meanB = none
    let squaresA = none
    let squaresB = none
    let products = none
    let missing = none
    for (let k = 0; k <= 2 * reach; k++) {
      const from = (at >> 1) + (<usize>k << 2)
      const weight = v128.load64_splat(weights + (<usize>k << 3))
      const a = f64x2.mul(f64x2.promote_low_f32x4(v128.load64_zero(first + from)), f64x2.splat(gainA))
      const b = f64x2.mul(f64x2.promote_low_f32x4(v128.load64_zero(second + from)), f64x2.splat(gainB))
      const weighedA = f64x2.mul(weight, a)
      const weighedB = f64x2.mul(weight, b)
      meanA = f64x2.add(meanA, weighedA)
      meanB = f64x2.add(meanB, weighedB)
      squaresA = f64x2.add(squaresA, f64x2.mul(weighedA, a))
      squaresB = f64x2.add(squaresB, f64x2.mul(weighedB, b))
      products = f64x2.add(products, f64x2.mul(weighedA, b))
      missing = f64x2.add(missing, v128.and(weight, v128.or(f64x2.eq(a, none), f64x2.eq(b, none))))
    }
    v128.store(out + at, meanA)
    v128.store(out + at + plane, meanB)
    v128.store(out + at + 2 * plane, squaresA)
    v128.store(out + at + 3 * plane, squaresB)
    v128.store(out + at + 4 * plane, products)
    v128.store(out + at + 5 * plane, missing)
  }
}

function down(at: usize, width: usize, weights: usize, reach: i32): v128 {
  let sum = f64x2.splat(0)
  for (let k = 0; k <= 2 * reach; k++, at += width)
    sum = f64x2.add(sum, f64x2.mul(v128.load64_splat(weights + (<usize>k << 3)), v128.load(at)))
  return sum
}

/** The value of this rank, from 0, of doubles in any order; their order is changed. */
export function ranked(values: usize, count: i32, rank: i32): f64 {
  // As far as asked for, each by insertion into those that are the least so far.
  for (let i = 1; i < count; i++) {
    const value = load<f64>(values + (<usize>i << 3))
    if (i > rank && value >= load<f64>(values + (<usize>rank << 3))) continue
    let at = min(i, rank)
    for (; at > 0 && load<f64>(values + (<usize>(at - 1) << 3)) > value; at--)
      store<f64>(values + (<usize>at << 3), load<f64>(values + (<usize>(at - 1) << 3)))
    store<f64>(values + (<usize>at << 3), value)
  }
  return load<f64>(values + (<usize>rank << 3))
}
