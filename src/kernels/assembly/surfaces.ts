// Quadratic surfaces through samples: least squares that are weighed anew again and again, in double precision.
import { solve, unknown } from './grids/equations'
import { nthSmallest } from './selection'

/** Coefficients of a surface, and numbers of a row of its equations. */
const TERMS = 6
const WIDTH = TERMS + 1

/**
 * As the definition in tests/kernels/plain-surface.ts.
 * @param xs, ys and zs of so many samples, floats
 * @param floor and all that follows, as there
 * @param residuals, sizes and counts: room for a float a sample each, and for 2048 times 32 bits
 * @param weights room for a double a sample
 * @param equations room for six rows of seven doubles
 * @param surface six doubles, then the standard deviation and how many samples are kept
 */
export function fitSurface(
  xs: usize,
  ys: usize,
  zs: usize,
  count: i32,
  floor: f64,
  toSigma: f64,
  tukey: f64,
  rounds: i32,
  settled: f64,
  ridge: f64,
  singular: f64,
  residuals: usize,
  sizes: usize,
  counts: usize,
  weights: usize,
  equations: usize,
  surface: usize,
): void {
  memory.fill(surface, 0, 8 * TERMS)
  memory.copy(sizes, zs, <usize>count << 2)
  store<f64>(surface, count == 0 ? 0 : <f64>nthSmallest(sizes, count, count >> 1, counts))
  let sigma: f64 = 0
  for (let round = 0; ; round++) {
    const before = sigma
    standOff(xs, ys, zs, count, surface, residuals)
    sigma = scaleOf(residuals, count, floor, toSigma, sizes, counts)
    weigh(residuals, count, tukey * sigma, weights)
    // The first scale is that of the samples about their middle.
    const hasSettled = round > 2 && Math.abs(sigma - before) <= settled * before
    if (hasSettled || round == rounds || !solved(xs, ys, zs, weights, count, ridge, singular, equations)) break
    for (let k = 0; k < TERMS; k++) store<f64>(surface + (<usize>k << 3), unknown(equations, k))
  }
  let kept = 0
  for (let k = 0; k < count; k++) if (load<f64>(weights + (<usize>k << 3)) > 0) kept++
  store<f64>(surface, sigma, 8 * TERMS)
  store<f64>(surface, <f64>kept, 8 * WIDTH)
}

/** How far samples stand off a surface. */
function standOff(xs: usize, ys: usize, zs: usize, count: i32, surface: usize, residuals: usize): void {
  const c0 = load<f64>(surface)
  const c1 = load<f64>(surface, 8)
  const c2 = load<f64>(surface, 16)
  const c3 = load<f64>(surface, 24)
  const c4 = load<f64>(surface, 32)
  const c5 = load<f64>(surface, 40)
  for (let at: usize = 0; at < <usize>count << 2; at += 4) {
    const x = <f64>load<f32>(xs + at)
    const y = <f64>load<f32>(ys + at)
    const z = c0 + c1 * x + c2 * y + c3 * x * x + c4 * x * y + c5 * y * y
    store<f32>(residuals + at, <f32>(<f64>load<f32>(zs + at) - z))
  }
}

/** Robust standard deviation of the residuals, at least `floor`. */
function scaleOf(residuals: usize, count: i32, floor: f64, toSigma: f64, sizes: usize, counts: usize): f64 {
  let small = 0
  for (let at: usize = 0; at < <usize>count << 2; at += 4) {
    const size = Mathf.abs(load<f32>(residuals + at))
    store<f32>(sizes + at, size)
    if (toSigma * <f64>size <= floor) small++
  }
  // With more than half of them so small, no median needs to be found.
  if (count == 0 || small > (count + 1) / 2) return floor
  return Math.max(floor, toSigma * <f64>nthSmallest(sizes, count, count >> 1, counts))
}

/** Tukey's biweight. */
function weigh(residuals: usize, count: i32, reach: f64, weights: usize): void {
  for (let k = 0; k < count; k++) {
    const u = <f64>load<f32>(residuals + (<usize>k << 2)) / reach
    const rest = 1 - u * u
    store<f64>(weights + (<usize>k << 3), Math.abs(u) < 1 ? rest * rest : 0)
  }
}

/** Solves the normal equations, with a touch of ridge, so that a strip along one edge alone can't make them singular. */
function solved(
  xs: usize,
  ys: usize,
  zs: usize,
  weights: usize,
  count: i32,
  ridge: f64,
  singular: f64,
  equations: usize,
): bool {
  sumUp(xs, ys, zs, weights, count, equations)
  const total = load<f64>(equations)
  if (total == 0) return false
  for (let r = 1; r < TERMS; r++) {
    const at = equations + (<usize>(r * WIDTH + r) << 3)
    store<f64>(at, load<f64>(at) + ridge * total)
  }
  return solve(equations, singular)
}

/** The upper half of the sums of products of the terms, two at a time, and, as seventh column, of the terms with z. */
function sumUp(xs: usize, ys: usize, zs: usize, weights: usize, count: i32, out: usize): void {
  let m00: f64 = 0
  let m0102 = f64x2.splat(0)
  let m0304 = m0102
  let m0506 = m0102
  let m1112 = m0102
  let m1314 = m0102
  let m1516 = m0102
  let m2324 = m0102
  let m2526 = m0102
  let m3334 = m0102
  let m3536 = m0102
  let m4546 = m0102
  let m5556 = m0102
  let m2244 = m0102
  for (let k = 0; k < count; k++) {
    const w = load<f64>(weights + (<usize>k << 3))
    if (w == 0) continue
    const at = <usize>k << 2
    const x = <f64>load<f32>(xs + at)
    const y = <f64>load<f32>(ys + at)
    const xy = x * y
    const first = f64x2(x, y)
    const second = f64x2(x * x, xy)
    const third = f64x2(y * y, <f64>load<f32>(zs + at))
    const all = f64x2.splat(w)
    m00 += w
    const w1 = f64x2.mul(all, first)
    const w2 = f64x2.mul(all, second)
    const w3 = f64x2.mul(all, third)
    m0102 = f64x2.add(m0102, w1)
    m0304 = f64x2.add(m0304, w2)
    m0506 = f64x2.add(m0506, w3)
    const wx = v128.shuffle<f64>(w1, w1, 0, 0)
    m1112 = f64x2.add(m1112, f64x2.mul(wx, first))
    m1314 = f64x2.add(m1314, f64x2.mul(wx, second))
    m1516 = f64x2.add(m1516, f64x2.mul(wx, third))
    const wy = v128.shuffle<f64>(w1, w1, 1, 1)
    m2324 = f64x2.add(m2324, f64x2.mul(wy, second))
    m2526 = f64x2.add(m2526, f64x2.mul(wy, third))
    const wxx = v128.shuffle<f64>(w2, w2, 0, 0)
    m3334 = f64x2.add(m3334, f64x2.mul(wxx, second))
    m3536 = f64x2.add(m3536, f64x2.mul(wxx, third))
    const wxy = v128.shuffle<f64>(w2, w2, 1, 1)
    m4546 = f64x2.add(m4546, f64x2.mul(wxy, third))
    m5556 = f64x2.add(m5556, f64x2.mul(v128.shuffle<f64>(w3, w3, 0, 0), third))
    const both = v128.shuffle<f64>(w1, w2, 1, 3)
    m2244 = f64x2.add(m2244, f64x2.mul(both, v128.shuffle<f64>(first, second, 1, 3)))
  }
  store<f64>(out, m00)
  v128.store(out, m0102, 8)
  v128.store(out, m0304, 24)
  v128.store(out, m0506, 40)
  v128.store(out, m1112, 64)
  v128.store(out, m1314, 80)
  v128.store(out, m1516, 96)
  store<f64>(out, f64x2.extract_lane(m2244, 0), 128)
  v128.store(out, m2324, 136)
  v128.store(out, m2526, 152)
  v128.store(out, m3334, 192)
  v128.store(out, m3536, 208)
  store<f64>(out, f64x2.extract_lane(m2244, 1), 256)
  v128.store(out, m4546, 264)
  v128.store(out, m5556, 320)
}
