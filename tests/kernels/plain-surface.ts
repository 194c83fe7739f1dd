import { surfaceAt } from '../../src/imaging/surface.ts'
import type { FitLimits } from '../../src/kernels/surfaces.ts'
import { mirrorUpper, solveSystem } from '../../src/numbers/linear-system.ts'
import { upperMedian } from '../../src/numbers/quantile.ts'

type Surface = Float64Array
const TERMS = 6

/** The definition of the kernel in plain TypeScript, by the same steps in the same order. */
export function fittedPlainly(
  [xs, ys, zs]: readonly [Float32Array, Float32Array, Float32Array],
  floor: number,
  limits: FitLimits,
) {
  const n = xs.length
  const weights = new Float64Array(n)
  const residuals = new Float32Array(n)
  const center = upperMedian(zs)
  for (let i = 0; i < n; i++) residuals[i] = (zs[i] as number) - center
  let surface: Surface = new Float64Array(TERMS)
  surface[0] = center
  let sigma = scaleOf(residuals, floor, limits)
  for (let iteration = 0; iteration < limits.rounds; iteration++) {
    biweight(residuals, limits.tukey * sigma, weights)
    const solved = solveWeighted(xs, ys, zs, weights, limits)
    if (!solved) break
    surface = solved
    for (let i = 0; i < n; i++) {
      residuals[i] = (zs[i] as number) - surfaceAt(surface, xs[i] as number, ys[i] as number)
    }
    const before = sigma
    sigma = scaleOf(residuals, floor, limits)
    if (iteration > 1 && Math.abs(sigma - before) <= limits.settled * before) break
  }
  biweight(residuals, limits.tukey * sigma, weights)
  let kept = 0
  for (const weight of weights) if (weight > 0) kept++
  return { surface, sigma, kept }
}

/** Robust standard deviation of the residuals, at least `floor`. */
function scaleOf(residuals: Float32Array, floor: number, { toSigma }: FitLimits): number {
  const sizes = new Float32Array(residuals.length)
  let small = 0
  for (let i = 0; i < sizes.length; i++) {
    const size = Math.abs(residuals[i] as number)
    sizes[i] = size
    if (toSigma * size <= floor) small++
  }
  // With more than half of them so small, no median needs to be found.
  if (small > (sizes.length + 1) / 2) return floor
  return Math.max(floor, toSigma * upperMedian(sizes))
}

function biweight(residuals: Float32Array, reach: number, weights: Float64Array): void {
  for (let i = 0; i < residuals.length; i++) {
    const u = (residuals[i] as number) / reach
    const rest = 1 - u * u
    weights[i] = Math.abs(u) < 1 ? rest * rest : 0
  }
}

/** Normal equations with a touch of ridge, so that a strip along one edge alone can't make them singular. */
function solveWeighted(
  xs: Float32Array,
  ys: Float32Array,
  zs: Float32Array,
  weights: Float64Array,
  { ridge, singular }: FitLimits,
): Surface | undefined {
  const m = normalEquations(xs, ys, zs, weights)
  const width = TERMS + 1
  const total = m[0] as number
  if (total === 0) return undefined
  mirrorUpper(m, TERMS)
  for (let r = 1; r < TERMS; r++) m[r * width + r] = (m[r * width + r] as number) + ridge * total
  return solveSystem(m, TERMS, singular)
}

/**
 * The upper half of the 6 x 6 sums of products of the terms and, as seventh column, of the terms with z. Written out,
 * as this is most of the time of a fit.
 */
function normalEquations(
  xs: Float32Array,
  ys: Float32Array,
  zs: Float32Array,
  weights: Float64Array,
): Float64Array {
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
  for (let i = 0; i < xs.length; i++) {
    const w = weights[i] as number
    if (w === 0) continue
    const x = xs[i] as number
    const y = ys[i] as number
    const z = zs[i] as number
    const xx = x * x
    const xy = x * y
    const yy = y * y
    m00 += w
    m01 += w * x
    m02 += w * y
    m03 += w * xx
    m04 += w * xy
    m05 += w * yy
    m06 += w * z
    const wx = w * x
    m11 += wx * x
    m12 += wx * y
    m13 += wx * xx
    m14 += wx * xy
    m15 += wx * yy
    m16 += wx * z
    const wy = w * y
    m22 += wy * y
    m23 += wy * xx
    m24 += wy * xy
    m25 += wy * yy
    m26 += wy * z
    const wxx = w * xx
    m33 += wxx * xx
    m34 += wxx * xy
    m35 += wxx * yy
    m36 += wxx * z
    const wxy = w * xy
    m44 += wxy * xy
    m45 += wxy * yy
    m46 += wxy * z
    const wyy = w * yy
    m55 += wyy * yy
    m56 += wyy * z
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
