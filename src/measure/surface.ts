/** Coefficients of z = c0 + c1 x + c2 y + c3 x^2 + c4 xy + c5 y^2, with x and y in -1..1 over the frame. */
export type Surface = Float64Array

const TERMS = 6
const ITERATIONS = 12
// A scale that moves less than this share from one round to the next has settled.
const SETTLED = 0.005
// Tukey's biweight at 95 % efficiency for normal errors; 1.4826 turns a MAD into a standard deviation.
// Source: Huber & Ronchetti, Robust Statistics, 2nd ed. (constants from memory).
const TUKEY = 4.685
const MAD_TO_SIGMA = 1.4826

export interface Fit {
  readonly surface: Surface
  /** Robust standard deviation of the residuals, in the unit of z. */
  readonly sigma: number
  /** Share of the samples that the fit keeps (weight above zero), 0..1. */
  readonly kept: number
}

/**
 * Fits a quadratic surface to samples by iteratively re-weighted least squares (Tukey's biweight), so that
 * hair, shoulders or a stand among the samples do not bend it.
 * @param floor smallest sigma assumed, in the unit of z; keeps a noiseless picture from rejecting its own gradient
 */
export function fitSurface(xs: Float32Array, ys: Float32Array, zs: Float32Array, floor: number): Fit {
  const n = xs.length
  const weights = new Float64Array(n)
  const residuals = new Float32Array(n)
  const center = median(zs)
  for (let i = 0; i < n; i++) residuals[i] = (zs[i] as number) - center
  let surface: Surface = new Float64Array(TERMS)
  surface[0] = center
  let sigma = scaleOf(residuals, floor)
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    biweight(residuals, sigma, weights)
    const solved = solveWeighted(xs, ys, zs, weights)
    if (!solved) break
    surface = solved
    for (let i = 0; i < n; i++) {
      residuals[i] = (zs[i] as number) - surfaceAt(surface, xs[i] as number, ys[i] as number)
    }
    const before = sigma
    sigma = scaleOf(residuals, floor)
    if (iteration > 1 && Math.abs(sigma - before) <= SETTLED * before) break
  }
  biweight(residuals, sigma, weights)
  let kept = 0
  for (const weight of weights) if (weight > 0) kept++
  return { surface, sigma, kept: n === 0 ? 0 : kept / n }
}

export function surfaceAt(c: Surface, x: number, y: number): number {
  const [c0 = 0, c1 = 0, c2 = 0, c3 = 0, c4 = 0, c5 = 0] = c
  return c0 + c1 * x + c2 * y + c3 * x * x + c4 * x * y + c5 * y * y
}

/** Middle value; 0 for an empty list. The list is not changed. */
export function median(values: Float32Array): number {
  return quantile(values, 0.5)
}

/** Value at share q (0..1) of the sorted values, the nearest rank; 0 for an empty list. */
export function quantile(values: Float32Array, q: number): number {
  if (values.length === 0) return 0
  const sorted = Float32Array.from(values).sort()
  return sorted[Math.round(q * (sorted.length - 1))] as number
}

function scaleOf(residuals: Float32Array, floor: number): number {
  return Math.max(floor, MAD_TO_SIGMA * median(residuals.map(Math.abs)))
}

function biweight(residuals: Float32Array, sigma: number, weights: Float64Array): void {
  const reach = TUKEY * sigma
  for (let i = 0; i < residuals.length; i++) {
    const u = (residuals[i] as number) / reach
    weights[i] = Math.abs(u) < 1 ? (1 - u * u) ** 2 : 0
  }
}

/** Normal equations with a touch of ridge, so that a strip along one edge alone can't make them singular. */
function solveWeighted(
  xs: Float32Array,
  ys: Float32Array,
  zs: Float32Array,
  weights: Float64Array,
): Surface | undefined {
  const width = TERMS + 1
  const m = new Float64Array(TERMS * width)
  const row = new Float64Array(TERMS)
  let total = 0
  for (let i = 0; i < xs.length; i++) {
    const w = weights[i] as number
    if (w === 0) continue
    total += w
    const x = xs[i] as number
    const y = ys[i] as number
    row.set([1, x, y, x * x, x * y, y * y])
    for (let r = 0; r < TERMS; r++) {
      const wr = w * (row[r] as number)
      for (let c = r; c < TERMS; c++)
        m[r * width + c] = (m[r * width + c] as number) + wr * (row[c] as number)
      m[r * width + TERMS] = (m[r * width + TERMS] as number) + wr * (zs[i] as number)
    }
  }
  if (total === 0) return undefined
  for (let r = 1; r < TERMS; r++) {
    for (let c = 0; c < r; c++) m[r * width + c] = m[c * width + r] as number
    m[r * width + r] = (m[r * width + r] as number) + 1e-4 * total
  }
  return eliminate(m, TERMS)
}

/** Gaussian elimination with partial pivoting on an n x (n + 1) augmented matrix; undefined when singular. */
function eliminate(m: Float64Array, n: number): Float64Array | undefined {
  const width = n + 1
  const at = (r: number, c: number) => m[r * width + c] as number
  for (let col = 0; col < n; col++) {
    let pivot = col
    for (let r = col + 1; r < n; r++) if (Math.abs(at(r, col)) > Math.abs(at(pivot, col))) pivot = r
    if (Math.abs(at(pivot, col)) < 1e-12) return undefined
    for (let c = col; c < width; c++) {
      const held = at(col, c)
      m[col * width + c] = at(pivot, c)
      m[pivot * width + c] = held
    }
    for (let r = 0; r < n; r++) {
      if (r === col) continue
      const factor = at(r, col) / at(col, col)
      for (let c = col; c < width; c++) m[r * width + c] = at(r, c) - factor * at(col, c)
    }
  }
  return Float64Array.from({ length: n }, (_, r) => at(r, n) / at(r, r))
}
